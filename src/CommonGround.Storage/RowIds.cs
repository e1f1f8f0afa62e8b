using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.ValueGeneration;

namespace CommonGround.Storage;

/// <summary>
/// Row numbers made by the program, so that they work as the second part of a key on every database: 37 bits of time
/// (16 ms since 2020, enough until 2089), 16 bits for the program that makes them, 10 bits that count.
/// </summary>
/// <remarks>
/// The database gives every program a number when it starts, and a running site takes a new one every hour (<see cref="UseProgram"/>), so
/// two programs share one only if 65,536 were started within an hour. Until then a program draws its number by lot.
/// </remarks>
public sealed class RowIds : ValueGenerator<long>
{
    private const int CountBits = 10, ProgramBits = 16, MillisecondBits = 4;
    private static readonly long Epoch = new DateTimeOffset(2020, 1, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

    private static readonly Lock Gate = new();
    private static long s_program = System.Security.Cryptography.RandomNumberGenerator.GetInt32(1 << ProgramBits);
    private static long s_tick;
    private static int s_count;

    public override bool GeneratesTemporaryValues => false;

    /// <summary>From now on numbers are made for the program of this number.</summary>
    public static void UseProgram(long number)
    {
        lock (Gate)
        {
            s_program = number & ((1 << ProgramBits) - 1);
            (s_tick, s_count) = (s_tick + 1, 0);
        }
    }

    /// <summary>A number above every one handed out before by this program; 1,024 each 16 ms before it runs ahead of the clock.</summary>
    public static long Next()
    {
        lock (Gate)
        {
            var now = (TimeProvider.System.GetUtcNow().ToUnixTimeMilliseconds() - Epoch) >> MillisecondBits;
            if (now > s_tick)
            {
                (s_tick, s_count) = (now, 0);
            }
            else if (++s_count == 1 << CountBits)
            {
                (s_tick, s_count) = (s_tick + 1, 0);
            }

            return (((s_tick << ProgramBits) | s_program) << CountBits) | (long)s_count;
        }
    }

    public override long Next(EntityEntry entry) => Next();
}

/// <summary>Names the generator in a way that the compiled model can write down.</summary>
internal sealed class RowIdsFactory : ValueGeneratorFactory
{
    public override ValueGenerator Create(IProperty property, ITypeBase typeBase) => new RowIds();
}
