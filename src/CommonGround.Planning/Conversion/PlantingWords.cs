using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>How plugs beside a sowing are set, in a sentence for page and report.</summary>
public static class PlantingWords
{
    public static string Plugs(ConversionRequest request, ConversionMix mix, bool customary = false)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(mix);
        var count = mix.Taxa.Sum(t => t.Plugs);
        return mix.Method == Method.Plugs ? $"Set the {count} plugs over all of the ground in staggered rows."
            : request.Light == Light.Shade ? $"Set the {count} plugs in patches, and let the patches meet."
            : request.Moisture is Moisture.Moist or Moisture.Wet ? $"Set the {count} plugs where water runs: seed floats off there."
            : $"Set the {count} plugs together in a band {(customary ? "3 ft" : "one metre")} deep along the walk or street, and never mow "
            + "it the first summer.";
    }
}
