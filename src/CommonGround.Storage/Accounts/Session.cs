using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace CommonGround.Storage.Accounts;

/// <summary>One browser somebody is signed in with. The cookie names it; without this row the cookie is worth nothing.</summary>
public sealed class Session
{
    public Guid Id { get; set; }
    public long AccountId { get; set; }
    public DateTime StartedAtUtc { get; set; }
    public DateTime SeenAtUtc { get; set; }
    public DateTime EndsAtUtc { get; set; }

    /// <summary>Browser and system in two words, from what the browser says of itself.</summary>
    public string Device { get; set; } = "";

    /// <summary>The network it came from, shortened: enough to recognise, too little to find a home.</summary>
    public string From { get; set; } = "";
}

internal sealed class SessionMapping : IEntityTypeConfiguration<Session>
{
    public void Configure(EntityTypeBuilder<Session> builder)
    {
        builder.ToTable("Sessions");
        builder.Property(s => s.Id).ValueGeneratedNever();
        builder.HasOne<Account>().WithMany().HasForeignKey(s => s.AccountId).OnDelete(DeleteBehavior.Cascade);
        builder.Property(s => s.Device).HasMaxLength(100);
        builder.Property(s => s.From).HasMaxLength(64);
    }
}
