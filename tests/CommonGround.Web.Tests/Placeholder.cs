namespace CommonGround.Web.Tests; internal static class Placeholder;
