namespace CommonGround.Planning.Tests; internal static class Placeholder;
