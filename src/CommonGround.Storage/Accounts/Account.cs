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
        builder.HasMany<IdentityUserPasskey<long>>().WithOne().HasForeignKey(p => p.UserId).IsRequired();
    }
}

/// <summary>As the framework's third schema has it; it takes its own only from a host's settings, which a command of the migrations has
/// not.</summary>
internal sealed class PasskeyMapping : IEntityTypeConfiguration<IdentityUserPasskey<long>>
{
    public void Configure(EntityTypeBuilder<IdentityUserPasskey<long>> builder)
    {
        builder.ToTable("Passkeys");
        builder.HasKey(p => p.CredentialId);
        builder.Property(p => p.CredentialId).HasMaxLength(1024);
        builder.OwnsOne(p => p.Data).ToJson();
    }
}
