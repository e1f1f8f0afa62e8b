using CommonGround.Reports.Layout;

namespace CommonGround.Reports.Tests.Layout;

public sealed class TypesetterTests
{
    [Fact]
    public void Every_line_but_the_last_ends_with_a_space_so_that_words_never_join()
    {
        using var set = new Typesetter();
        var lines = set.Wrap([new Run("Three or more native species are in flower at once in most of the season.", Faces.Data)], 90);
        lines.Count.ShouldBeGreaterThan(2);
        lines.SkipLast(1).Select(l => string.Concat(l.Pieces.Select(p => p.Text))).ShouldAllBe(t => t.EndsWith(' '));
        string.Concat(lines.SelectMany(l => l.Pieces).Select(p => p.Text))
            .ShouldBe("Three or more native species are in flower at once in most of the season.");
    }

    [Fact]
    public void No_line_is_wider_than_its_column()
    {
        using var set = new Typesetter();
        var lines = set.Wrap([new Run("wild columbine ", Faces.Data), new Run("Aquilegia canadensis", Faces.Latin, Unbroken: true),
            new Run(", Donaudampfschifffahrtsgesellschaft", Faces.Data)], 60);
        lines.ShouldAllBe(l => l.Width <= 60.01);
    }

    [Fact]
    public void A_scientific_name_stays_on_one_line_where_it_fits()
    {
        using var set = new Typesetter();
        var lines = set.Wrap([new Run("hairy aster ", Faces.Data), new Run("Symphyotrichum pilosum", Faces.Latin, Unbroken: true)], 110);
        lines.Select(l => string.Concat(l.Pieces.Select(p => p.Text))).ShouldBe(["hairy aster ", "Symphyotrichum pilosum"]);
    }

    [Fact]
    public void A_comma_in_another_face_is_not_parted_from_its_word()
    {
        using var set = new Typesetter();
        var lines = set.Wrap([new Run("Rosa setigera", Faces.Latin), new Run(", introduced", Faces.Data)], 400);
        lines.ShouldHaveSingleItem();
        string.Concat(lines[0].Pieces.Select(p => p.Text)).ShouldBe("Rosa setigera, introduced");
    }
}
