namespace CommonGround.Storage.Tests; internal static class Placeholder;
