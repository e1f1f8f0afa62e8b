namespace CommonGround.Planning; internal static class Placeholder;
