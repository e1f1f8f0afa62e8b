namespace CommonGround.Reports; internal static class Placeholder;
