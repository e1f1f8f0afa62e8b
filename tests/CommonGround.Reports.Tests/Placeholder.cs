namespace CommonGround.Reports.Tests; internal static class Placeholder;
