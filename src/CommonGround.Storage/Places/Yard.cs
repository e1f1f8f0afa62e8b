using CommonGround.Ecology.Taxa;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Places;

public sealed class Yard
{
    public int NeighbourhoodId { get; set; }
    public long Id { get; set; }
    public long BlockId { get; set; }

    /// <summary>The short name on lists and reports, unique in the neighbourhood; says nothing of who lives there.</summary>
    public required string Code { get; set; }

    /// <summary>Exact position, degrees. Blurred by the query for everyone but the household and organisers.</summary>
    public double Latitude { get; set; }
    public double Longitude { get; set; }
    public double AreaSquareMetres { get; set; }

    /// <summary>Null where nobody has said: not known, never 0.</summary>
    public double? LawnSquareMetres { get; set; }
    public Light? Light { get; set; }
    public Moisture? Moisture { get; set; }
    public SoilGroup? SoilGroup { get; set; }

    /// <summary>The household's own label; seen by the household and organisers only.</summary>
    public string Household { get; set; } = "";

    /// <summary>The household lets its yard count in what the public sees.</summary>
    public bool Shared { get; set; }

    /// <summary>The household lets its yard stand on maps that leave the group, at a place moved by a stable offset.</summary>
    public bool OnMap { get; set; }

    /// <summary>The way from its position to the place told outside the group, metres to the north and to the east: drawn once, 100 to 300
    /// m, and kept for good.</summary>
    /// <remarks>Both 0 in rows from before it was kept: not drawn yet.</remarks>
    public double OffsetNorthMetres { get; set; }
    public double OffsetEastMetres { get; set; }

    /// <summary>The household lets photos of its yard be seen in public.</summary>
    public bool PhotosShared { get; set; }

    /// <summary>The household lets guests of a tour stop at its yard.</summary>
    public bool OnTour { get; set; }

    /// <summary>How guests find it, in the household's own words; empty where it names no address.</summary>
    public string Directions { get; set; } = "";

    /// <summary>What the steward says there.</summary>
    public string TourLine { get; set; } = "";

    /// <summary>The household said that it would plant; told to organisers only.</summary>
    public bool WouldPlant { get; set; }
    public long? OwnerId { get; set; }
    public DateOnly? RegisteredOn { get; set; }

    /// <summary>Renewed with every save of the yard or of a row in it; a stale one means somebody else saved first.</summary>
    public Guid Version { get; set; }
}

internal sealed class YardMapping : IEntityTypeConfiguration<Yard>
{
    public void Configure(EntityTypeBuilder<Yard> builder)
    {
        builder.HasHistory(RowKinds.Yard);
        builder.ToTable(t =>
        {
            t.HasCheckConstraint("CK_Yards_Latitude", "\"Latitude\" BETWEEN -90 AND 90");
            t.HasCheckConstraint("CK_Yards_Longitude", "\"Longitude\" BETWEEN -180 AND 180");
            t.HasCheckConstraint("CK_Yards_Area", "\"AreaSquareMetres\" > 0");
            t.HasCheckConstraint("CK_Yards_Lawn",
                "\"LawnSquareMetres\" IS NULL OR \"LawnSquareMetres\" >= 0 AND \"LawnSquareMetres\" <= \"AreaSquareMetres\"");
        });
        builder.HasRow(y => new { y.NeighbourhoodId, y.Id }, y => y.Id);
        builder.HasOne<StreetBlock>().WithMany().HasForeignKey(y => new { y.NeighbourhoodId, y.BlockId }).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Member>().WithMany().HasForeignKey(y => new { y.NeighbourhoodId, y.OwnerId }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(y => y.Code).HasMaxLength(40);
        builder.Property(y => y.Household).HasMaxLength(200);
        builder.Property(y => y.Directions).HasMaxLength(160);
        builder.Property(y => y.TourLine).HasMaxLength(300);
        builder.Property(y => y.Version).IsConcurrencyToken().IsWorkedOut();
        builder.HasIndex(y => new { y.NeighbourhoodId, y.Code }).IsUnique();
    }
}
