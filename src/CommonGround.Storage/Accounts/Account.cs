using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Accounts;

/// <summary>Somebody who can sign in. What they may do stands in their <see cref="Members.Member"/> rows, one a neighbourhood.</summary>
public sealed class Account : IdentityUser<long>
{
    /// <summary>How the record calls them.</summary>
    public required string Name { get; set; }
    public DateTime CreatedAtUtc { get; set; }

    /// <summary>When they asked to be deleted; for thirty days they can take it back.</summary>
    public DateTime? DeletionAskedAtUtc { get; set; }
}

internal sealed class AccountMapping : IEntityTypeConfiguration<Account>
{
    public void Configure(EntityTypeBuilder<Account> builder)
    {
        builder.ToTable("Accounts");
        builder.Property(a => a.Id).ValueGeneratedOnAdd().HasValueGeneratorFactory<RowIdsFactory>();
        builder.Property(a => a.Name).HasMaxLength(200);
    }
}
