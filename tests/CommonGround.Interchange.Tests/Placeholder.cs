namespace CommonGround.Interchange.Tests; internal static class Placeholder;
