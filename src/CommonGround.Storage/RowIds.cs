using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.ValueGeneration;

namespace CommonGround.Storage;

/// <summary>Row numbers made by the program, so that they work as the second part of a key on every database: milliseconds since 2020, then a counter.</summary>
public sealed class RowIds : ValueGenerator<long>
{
    private static readonly long Epoch = new DateTimeOffset(2020, 1, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

    /// <summary>How far numbers of two rows lie apart that were made a minute apart.</summary>
    public const long Minute = 60_000L << 20;

    private static readonly Lock Gate = new();
    private static long s_last;

    public override bool GeneratesTemporaryValues => false;

    /// <summary>A number above every one handed out before by this process; 2²⁰ a millisecond before it runs ahead of the clock.</summary>
    public static long Next()
    {
        lock (Gate)
        {
            var now = (TimeProvider.System.GetUtcNow().ToUnixTimeMilliseconds() - Epoch) << 20;
            s_last = Math.Max(s_last + 1, now);
            return s_last;
        }
    }

    public override long Next(EntityEntry entry) => Next();
}

/// <summary>Names the generator in a way that the compiled model can write down.</summary>
internal sealed class RowIdsFactory : ValueGeneratorFactory
{
    public override ValueGenerator Create(IProperty property, ITypeBase typeBase) => new RowIds();
}
