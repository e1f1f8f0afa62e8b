namespace CommonGround.Interchange; internal static class Placeholder;
