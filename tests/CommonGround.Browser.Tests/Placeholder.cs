namespace CommonGround.Browser.Tests; internal static class Placeholder;
