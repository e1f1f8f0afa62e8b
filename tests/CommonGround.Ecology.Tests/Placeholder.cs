namespace CommonGround.Ecology.Tests; internal static class Placeholder;
