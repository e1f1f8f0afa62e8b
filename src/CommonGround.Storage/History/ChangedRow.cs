using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.History;

public enum RowAction { Added, Changed, Removed }

/// <summary>One row that a <see cref="Change"/> touched. What it held may be erased when a household leaves; that it was touched
/// stays.</summary>
public sealed class ChangedRow
{
    public int NeighbourhoodId { get; set; }
    public long ChangeId { get; set; }
    public int Ordinal { get; set; }

    /// <summary>The kind of row, one of <see cref="RowKinds"/>.</summary>
    public required string Kind { get; set; }

    /// <summary>Its key without the neighbourhood.</summary>
    public required string RowKey { get; set; }
    public RowAction RowAction { get; set; }

    /// <summary>The yard it belongs to, if any.</summary>
    public long? YardId { get; set; }

    /// <summary>JSON by column: of a removed row everything, of a changed one what was altered; null when added or erased.</summary>
    public string? Before { get; set; }

    /// <summary>JSON by column of what a changed row became.</summary>
    public string? After { get; set; }

    /// <summary>Hash of the row as this change left it, four letters a column; empty when removed. Undo asks whether it still is
    /// so.</summary>
    public string Hash { get; set; } = "";

    /// <summary>
    /// The columns that <see cref="Hash"/> was taken over, in its order, with blanks between: on the first row of its kind in a change, for
    /// all of that kind. A later schema compares those it still has.
    /// </summary>
    public string? Columns { get; set; }
}

internal sealed class ChangedRowMapping : IEntityTypeConfiguration<ChangedRow>
{
    public void Configure(EntityTypeBuilder<ChangedRow> builder)
    {
        builder.ToTable("ChangedRows");
        builder.HasKey(r => new { r.NeighbourhoodId, r.ChangeId, r.Ordinal });
        builder.Property(r => r.Ordinal).ValueGeneratedNever();
        builder.Property(r => r.ChangeId).ValueGeneratedNever();
        builder.HasOne<Change>().WithMany().HasForeignKey(r => new { r.NeighbourhoodId, r.ChangeId }).OnDelete(DeleteBehavior.Restrict);
        builder.Property(r => r.Kind).HasMaxLength(40);
        builder.Property(r => r.RowKey).HasMaxLength(80);
        builder.Property(r => r.Hash).HasMaxLength(400);
        builder.HasIndex(r => new { r.NeighbourhoodId, r.Kind, r.RowKey });
        builder.HasIndex(r => new { r.NeighbourhoodId, r.YardId });
    }
}
