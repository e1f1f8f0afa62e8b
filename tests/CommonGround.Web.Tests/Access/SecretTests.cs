using System.Text.RegularExpressions;

namespace CommonGround.Web.Tests.Access;

/// <summary>No file of the repository looks like it holds a secret (ASVS 5.0, 13.3.1). The patterns are common practice, from
/// memory.</summary>
public sealed partial class SecretTests
{
    private static readonly string[] Kinds = ["cs", "razor", "js", "json", "md", "yaml", "yml", "sh", "service", "props", "targets",
        "csproj", "csv", "txt", "config", "xml", "pem", "key", "pfx", "p12", "env", ""];
    private static readonly string[] SecretEndings = [".pem", ".key", ".pfx", ".p12", ".env", "id_rsa", "id_ed25519", ".kdbx", ".jks"];

    /// <summary>What looks like a secret and is none: invented for tests and examples.</summary>
    private static readonly string[] Allowed = ["seven quiet herons", "tests/", "${", "CHANGE", "change-me", "docs/", "DEVELOPERS.md",
        "EntryPages.cs"];

    [Fact]
    public void No_file_looks_like_a_key_a_token_or_a_password()
    {
        var root = TempFolder.Repository();
        var (found, looked) = (new List<string>(), 0);
        foreach (var file in Directory.EnumerateFiles(root, "*", SearchOption.AllDirectories)
            .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(p => p is ".git" or "bin" or "obj" or "node_modules" or "data" or "lib"
            or "TestResults")))
        {
            var name = Path.GetRelativePath(root, file).Replace('\\', '/');
            if (SecretEndings.Any(e => name.EndsWith(e, StringComparison.OrdinalIgnoreCase)))
            {
                found.Add(name);
            }
            else if (Kinds.Contains(Path.GetExtension(name).TrimStart('.')) && new FileInfo(file).Length < 2_000_000
                && !name.EndsWith("common-passwords.txt", StringComparison.Ordinal))
            {
                looked++;
                found.AddRange(File.ReadLines(file).Select((line, i) => (line, i)).Where(l => Looks(l.line)
                    && !Allowed.Any(a => (name + " " + l.line).Contains(a, StringComparison.Ordinal))).Select(l => $"{name}:{l.i + 1}"));
            }
        }

        looked.ShouldBeGreaterThan(300);
        found.ShouldBeEmpty();
    }

    [Theory]
    [InlineData("-----BEGIN " + "PRIVATE KEY-----")]
    [InlineData("-----BEGIN RSA " + "PRIVATE KEY-----")]
    [InlineData("Password" + "=hunter2hunter2;")]
    [InlineData("\"apiKey\"" + ": \"0123456789abcdef0123\"")]
    [InlineData("ghp_" + "0123456789abcdef0123456789abcdef0123")]
    [InlineData("AKIA" + "0123456789ABCDEF")]
    public void A_secret_is_known_when_it_is_seen(string line) => Looks(line).ShouldBeTrue();

    [Theory]
    [InlineData("public string Password { get; set; } = \"\";")]
    [InlineData("await mail.SendAsync(account.Email!, \"Your password was changed\")")]
    public void What_only_speaks_of_secrets_is_none(string line) => Looks(line).ShouldBeFalse();

    [Fact]
    public void What_a_running_site_writes_is_ignored_by_the_repository() =>
        File.ReadAllLines(Path.Combine(TempFolder.Repository(), ".gitignore")).ShouldContain("src/CommonGround.Web/data/");

    private static bool Looks(string line) => line.Length < 5_000
        && (KeyBlock().IsMatch(line) || Token().IsMatch(line) || Assigned().IsMatch(line));

    [GeneratedRegex("-----BEGIN ([A-Z]+ )?PRIVATE KEY-----", RegexOptions.ExplicitCapture)]
    private static partial Regex KeyBlock();

    [GeneratedRegex("(gh[pousr]_[A-Za-z0-9]{30,}|AKIA[0-9A-Z]{16}|xox[abp]-[0-9A-Za-z-]{10,}|eyJ[A-Za-z0-9_-]{20,}\\.[A-Za-z0-9_-]{20,})",
        RegexOptions.ExplicitCapture)]
    private static partial Regex Token();

    [GeneratedRegex("(password|passwd|secret|api_?key|token)[\"']?(=|\\s*:\\s*\"|\\s*=\\s*\")(?<value>[^\\s\"';{}$<>()]{8,})",
        RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
    private static partial Regex Assigned();
}
