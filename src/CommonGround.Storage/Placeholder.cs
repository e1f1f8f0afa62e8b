namespace CommonGround.Storage; internal static class Placeholder;
