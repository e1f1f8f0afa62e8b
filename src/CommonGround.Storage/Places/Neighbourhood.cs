using CommonGround.Ecology.Regions;
using CommonGround.Storage.History;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

/// <summary>One group's ground. Its number leads the key of every other row.</summary>
public sealed class Neighbourhood
{
    public int Id { get; set; }
    public required string Name { get; set; }

    /// <summary>Invented data to look around in; never mixed with a real group's.</summary>
    public bool IsDemo { get; set; }

    /// <summary>The day the demo pretends it is, so that its pictures do not change with the calendar; null in real use.</summary>
    public DateOnly? DemoToday { get; set; }

    /// <summary>IANA name of the group's time zone: "today" is theirs, not the server's.</summary>
    public required string TimeZone { get; set; }

    /// <summary>Fingerprint of the catalogue file last loaded, so that an unchanged file is not read again.</summary>
    public string CatalogueFingerprint { get; set; } = "";

    /// <summary>What the group has set (season, weights of pressure), as JSON; empty means the defaults.</summary>
    public string Settings { get; set; } = "";

    /// <summary>What ground work, upkeep, fuel and water cost here, as JSON; empty means the defaults.</summary>
    public string Rates { get; set; } = "";

    /// <summary>Anybody may sign up as a member, with a confirmed e-mail address; otherwise an invitation is needed.</summary>
    public bool OpenSignUp { get; set; }

    /// <summary>Host name under which this neighbourhood is shown; empty where the reader chooses.</summary>
    public string Host { get; set; } = "";

    /// <summary>Secret from which each yard's stable offset is made, as hexadecimal; empty until first needed.</summary>
    public string OffsetKey { get; set; } = "";

    /// <summary>What people call the place, such as "Springfield"; for people only.</summary>
    public string PlaceName { get; set; } = "";

    /// <summary>Two letters of its state; empty outside the states whose tables are held, and where no place is given.</summary>
    public string State { get; set; } = "";

    /// <summary>Degrees north of the group's middle; null where no place is given.</summary>
    public double? Latitude { get; set; }

    /// <summary>Degrees east, negative in America.</summary>
    public double? Longitude { get; set; }

    /// <summary>Height above the sea, m.</summary>
    public double? ElevationMetres { get; set; }

    /// <summary>The regional table the group chose itself; empty for the one its place gives.</summary>
    public string RegionalTable { get; set; } = "";

    /// <summary>Where the group grows its plants; null where nobody said: then the catalogue's own values hold, those of northern
    /// Illinois.</summary>
    public Locality? ToLocality() => Latitude is { } latitude && Longitude is { } longitude
        ? new Locality(State, latitude, longitude, ElevationMetres, RegionalTable) : null;
}

internal sealed class NeighbourhoodMapping : IEntityTypeConfiguration<Neighbourhood>
{
    public void Configure(EntityTypeBuilder<Neighbourhood> builder)
    {
        builder.HasHistory(RowKinds.Neighbourhood);
        builder.Property(n => n.Id).ValueGeneratedNever();
        builder.Property(n => n.Name).HasMaxLength(200);
        builder.Property(n => n.TimeZone).HasMaxLength(64);
        builder.Property(n => n.CatalogueFingerprint).HasMaxLength(64);
        builder.Property(n => n.Host).HasMaxLength(253);
        builder.Property(n => n.OffsetKey).HasMaxLength(64);
        builder.Property(n => n.PlaceName).HasMaxLength(200);
        builder.Property(n => n.State).HasMaxLength(2);
        builder.Property(n => n.RegionalTable).HasMaxLength(64);
    }
}
