using CommonGround.Interchange.GeoJson;
using CommonGround.Storage;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <content>Names, splits, joins and deletes what is there.</content>
public sealed partial class StreetDrawing
{
    public void RenameStreet(long street, string name)
    {
        Remember();
        Now = Now with { Streets = [.. Now.Streets.Select(s => s.Id == street ? s with { Name = name.Trim() } : s)] };
    }

    /// <summary>Gives a block a name of its own; an empty one names it after its crossings again.</summary>
    public void RenameBlock(long block, string name)
    {
        Remember();
        Now = Now.With(Now.Block(block)! with { Name = name.Trim() });
    }

    /// <summary>A new crossing half way along a block.</summary>
    public string Split(long block)
    {
        var its = Now.Block(block)!;
        if (!its.IsLine)
        {
            return "Only a block that is drawn as a line can be split.";
        }

        var line = Now.LineOf(its);
        var length = DrawnLines.Metres(line);
        if (length < 2 * LeastBlockMetres)
        {
            return "This block is too short to be split.";
        }

        Remember();
        var (at, part) = DrawnLines.Along(line, length / 2);
        Cut(its, at, part);
        return "";
    }

    /// <summary>Takes a crossing out: the two blocks of one street that meet there become one.</summary>
    public string TakeCrossing(long crossing)
    {
        var meeting = Now.Blocks.Where(b => b.Meets(crossing)).ToList();
        if (meeting is not [var first, var second] || first.StreetId != second.StreetId || first.Id == second.Id)
        {
            return meeting.Count switch
            {
                1 => "A street ends here. Delete the block instead, or move its end.",
                2 => "Two streets meet here. Delete one of them first.",
                _ => "More than two blocks meet here. Delete those that are too many first.",
            };
        }

        Remember();
        // The block that was stored goes on; of two stored ones the one with more yards.
        if ((second.Began is not null, Now.YardsOn(second.Id)).CompareTo((first.Began is not null, Now.YardsOn(first.Id))) > 0)
        {
            (first, second) = (second, first);
        }

        var (to, on) = (first.To == crossing ? Now.LineOf(first) : [.. Now.LineOf(first).Reverse()],
            second.From == crossing ? Now.LineOf(second) : Now.LineOf(second).Reverse().ToList());
        var (start, end) = (first.To == crossing ? first.From : first.To, second.From == crossing ? second.To : second.From);
        Now = Now.With(first with { Name = "", From = start, To = end, Between = [.. to.Skip(1), .. on.Skip(1).SkipLast(1)] });
        Forget(second.Id, first.Id);
        return "";
    }

    /// <summary>Deletes a block. One with yards is refused unless another takes them.</summary>
    /// <param name="heir">Takes the yards and what is recorded of the block.</param>
    public string Delete(long block, long? heir = null)
    {
        if (heir is null && Now.YardsOn(block) is > 0 and var yards)
        {
            return $"{Words.Count(yards, "yard stands", "yards stand")} on this block. Choose which block takes "
                + $"{(yards == 1 ? "it" : "them")}, then delete.";
        }

        Remember();
        Forget(block, heir);
        return "";
    }

    /// <summary>Deletes a street with all its blocks, where none has yards.</summary>
    public string DeleteStreet(long street)
    {
        var blocks = Now.Blocks.Where(b => b.StreetId == street).ToList();
        if (blocks.Sum(b => Now.YardsOn(b.Id)) is > 0 and var yards)
        {
            return $"{Words.Count(yards, "yard stands", "yards stand")} on this street. Move "
                + $"{(yards == 1 ? "it" : "them")} to blocks of another street first.";
        }

        Remember();
        Now = Now with { Blocks = [.. Now.Blocks.Where(b => b.StreetId != street)] };
        (Pen, Street) = Street == street ? (null, null) : (Pen, Street);
        Now = Now.Tidied(Pen, Street);
        return "";
    }

    private void Forget(long block, long? heir)
    {
        var heirs = new Dictionary<long, long>(Now.Heirs.Select(h => heir is { } next && h.Value == block ? new(h.Key, next) : h));
        if (heir is { } takes)
        {
            heirs[block] = takes;
        }

        Now = Now with
        {
            Blocks = [.. Now.Blocks.Where(b => b.Id != block)],
            Yards = heir is { } to ? [.. Now.Yards.Select(y => y.BlockId == block ? y with { BlockId = to } : y)] : Now.Yards,
            Heirs = heirs,
        };
        if (Pen is { } pen && !Now.Blocks.Any(b => b.Meets(pen)))
        {
            Pen = null;
        }

        Now = Now.Tidied(Pen, Street);
    }

    /// <summary>Cuts a block in two at a place of its line; each yard goes with the half it is nearer to.</summary>
    /// <returns>The crossing there; an end of the block where the place is next to it.</returns>
    private long Cut(DrawnBlock block, GeoPoint at, int part)
    {
        foreach (var end in new[] { block.From!.Value, block.To!.Value })
        {
            if (DrawnLines.Metres(Now.Crossing(end).At, at) < LeastBlockMetres)
            {
                return end;
            }
        }

        var crossing = NewCrossing(at, "");
        var half = new DrawnBlock(RowIds.Next(), block.StreetId, "", crossing, block.To, [.. block.Between.Skip(part)], null, null, null);
        var first = block with { Name = "", To = crossing, Between = [.. block.Between.Take(part)] };
        Now = Now with { Blocks = [.. Now.Blocks.SelectMany(b => b.Id == block.Id ? new[] { first, half } : [b])] };
        Now = Now with
        {
            Yards = [.. Now.Yards.Select(y => y.BlockId == block.Id && DrawnLines.Nearest(Now.LineOf(half), y.At).Metres
                < DrawnLines.Nearest(Now.LineOf(first), y.At).Metres ? y with { BlockId = half.Id } : y)],
        };
        return crossing;
    }
}
