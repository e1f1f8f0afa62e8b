using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Phenology;

/// <summary>A dated look at a taxon's growth stage.</summary>
/// <param name="On">The day.</param>
/// <param name="GrowthStage">BBCH principal stage 0–9, or <c>null</c> when not noted.</param>
public readonly record struct StageSighting(DateOnly On, int? GrowthStage);

/// <summary>What was seen in flower overrides what the table says.</summary>
/// <remarks>Our own convention; see docs/measures.md#observed-flowering.</remarks>
public static class ObservedFlowering
{
    /// <summary>The bloom window of a taxon, stretched to every half-month in which it was seen in flower (stage 6).</summary>
    /// <param name="table">The catalogue's window, already shifted to this place and year, or <c>null</c>.</param>
    /// <param name="lifeForm">Grasses and sedges have no window for pollinators, whatever was seen.</param>
    /// <param name="sightings">Any number, any order; other stages than 6 change nothing.</param>
    /// <returns>The shortest window that holds the table's and all sightings; of equally short ones, the one that leaves winter out.
    /// <c>null</c> without either.</returns>
    /// <remarks>The complement of the longest run of half-months not in flower. See docs/measures.md#observed-flowering.</remarks>
    public static BloomWindow? Extend(BloomWindow? table, LifeForm lifeForm, IEnumerable<StageSighting> sightings)
    {
        ArgumentNullException.ThrowIfNull(sightings);
        if (lifeForm is LifeForm.Grass or LifeForm.Sedge)
        {
            return null;
        }

        var inFlower = new bool[HalfMonth.Count];
        for (var t = 0; t < HalfMonth.Count; t++)
        {
            inFlower[t] = table?.Contains(t) ?? false;
        }

        var extended = false;
        foreach (var sighting in sightings)
        {
            var t = HalfMonth.Of(sighting.On);
            extended |= sighting.GrowthStage == GrowthStage.Flowering && !inFlower[t];
            inFlower[t] |= sighting.GrowthStage == GrowthStage.Flowering;
        }

        return extended ? Around(inFlower) : table;
    }

    private static BloomWindow Around(bool[] inFlower)
    {
        int longest = -1, start = 0, end = 0;
        for (var t = 0; t < HalfMonth.Count; t++)
        {
            if (!inFlower[t])
            {
                continue;
            }

            var rest = 0;
            while (rest < HalfMonth.Count - 1 && !inFlower[(t + 1 + rest) % HalfMonth.Count])
            {
                rest++;
            }

            if (rest >= longest)
            {
                (longest, end, start) = (rest, t, (t + 1 + rest) % HalfMonth.Count);
            }
        }

        return new(start, end);
    }
}
