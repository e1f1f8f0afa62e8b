using CommonGround.Reports.InvitationSlips;
using CommonGround.Reports.Layout;
using CommonGround.Reports.Tests.YardReports;

namespace CommonGround.Reports.Tests.WalkSheets;

public sealed class InvitationSlipTests
{
    [Theory]
    [InlineData(PaperSize.Letter)]
    [InlineData(PaperSize.A4)]
    public void Six_slips_stand_on_one_sheet_each_with_its_code_its_address_and_its_last_day(PaperSize paper)
    {
        using var stream = new MemoryStream();
        InvitationSlipsDocument.Write("Quarry Bend", "https://example.org/join", new DateOnly(2026, 9, 2),
            [.. Enumerable.Range(1, 6).Select(i => new InvitationSlip($"household {i}", $"ABCD-EFGH-JKLM-NPQ{i}",
                $"https://example.org/join?code=ABCD-EFGH-JKLM-NPQ{i}"))], paper, stream);
        var read = ReadBack.Of(stream.ToArray());
        read.Pages.Count.ShouldBe(1);
        foreach (var i in Enumerable.Range(1, 6))
        {
            read.Text.ShouldContain($"ABCD-EFGH-JKLM-NPQ{i}");
            read.Text.ShouldContain($"For household {i}. One person, once, until September 2, 2026.");
        }

        read.Text.ShouldContain("You are invited to Quarry Bend");
        read.Text.ShouldContain("https://example.org/join");
    }
}
