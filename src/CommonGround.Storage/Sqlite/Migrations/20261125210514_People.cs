using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class People : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "OnMap",
                table: "Yards",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "PhotosShared",
                table: "Yards",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "Host",
                table: "Neighbourhoods",
                type: "TEXT",
                maxLength: 253,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "OffsetKey",
                table: "Neighbourhoods",
                type: "TEXT",
                maxLength: 64,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "OpenSignUp",
                table: "Neighbourhoods",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<long>(
                name: "AccountId",
                table: "Members",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "Accounts",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    DeletionAskedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    UserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    PasswordHash = table.Column<string>(type: "TEXT", nullable: true),
                    SecurityStamp = table.Column<string>(type: "TEXT", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "TEXT", nullable: true),
                    PhoneNumber = table.Column<string>(type: "TEXT", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "TEXT", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Accounts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Changes",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    What = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false),
                    MemberId = table.Column<long>(type: "INTEGER", nullable: true),
                    By = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    From = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    UndoOfId = table.Column<long>(type: "INTEGER", nullable: true),
                    EraseAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Changes", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Changes_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Invitations",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    CodeHash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    Role = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    ForWhom = table.Column<string>(type: "TEXT", maxLength: 256, nullable: false),
                    MadeById = table.Column<long>(type: "INTEGER", nullable: true),
                    MadeAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndsAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    UsedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    UsedById = table.Column<long>(type: "INTEGER", nullable: true),
                    WithdrawnAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Invitations", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Invitations_Members_NeighbourhoodId_MadeById",
                        columns: x => new { x.NeighbourhoodId, x.MadeById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Invitations_Members_NeighbourhoodId_UsedById",
                        columns: x => new { x.NeighbourhoodId, x.UsedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Photos",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    FileName = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    Caption = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    TakenOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    AddedById = table.Column<long>(type: "INTEGER", nullable: true),
                    AddedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Photos", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Photos_Members_NeighbourhoodId_AddedById",
                        columns: x => new { x.NeighbourhoodId, x.AddedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Photos_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "PublishedYards",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    BlockId = table.Column<long>(type: "INTEGER", nullable: false),
                    Yards = table.Column<string>(type: "TEXT", nullable: false),
                    SinceUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PublishedYards", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_PublishedYards_Blocks_NeighbourhoodId_BlockId",
                        columns: x => new { x.NeighbourhoodId, x.BlockId },
                        principalTable: "Blocks",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    UserId = table.Column<long>(type: "INTEGER", nullable: false),
                    ClaimType = table.Column<string>(type: "TEXT", nullable: true),
                    ClaimValue = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "TEXT", nullable: false),
                    ProviderKey = table.Column<string>(type: "TEXT", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "TEXT", nullable: true),
                    UserId = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                columns: table => new
                {
                    UserId = table.Column<long>(type: "INTEGER", nullable: false),
                    LoginProvider = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserTokens", x => new { x.UserId, x.LoginProvider, x.Name });
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Passkeys",
                columns: table => new
                {
                    CredentialId = table.Column<byte[]>(type: "BLOB", maxLength: 1024, nullable: false),
                    UserId = table.Column<long>(type: "INTEGER", nullable: false),
                    Data = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Passkeys", x => x.CredentialId);
                    table.ForeignKey(
                        name: "FK_Passkeys_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Sessions",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    AccountId = table.Column<long>(type: "INTEGER", nullable: false),
                    StartedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    SeenAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndsAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Device = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    From = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sessions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Sessions_Accounts_AccountId",
                        column: x => x.AccountId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ChangedRows",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    ChangeId = table.Column<long>(type: "INTEGER", nullable: false),
                    Ordinal = table.Column<int>(type: "INTEGER", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    RowKey = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    Did = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: true),
                    Before = table.Column<string>(type: "TEXT", nullable: true),
                    After = table.Column<string>(type: "TEXT", nullable: true),
                    Print = table.Column<string>(type: "TEXT", maxLength: 16, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChangedRows", x => new { x.NeighbourhoodId, x.ChangeId, x.Ordinal });
                    table.ForeignKey(
                        name: "FK_ChangedRows_Changes_NeighbourhoodId_ChangeId",
                        columns: x => new { x.NeighbourhoodId, x.ChangeId },
                        principalTable: "Changes",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Members_AccountId",
                table: "Members",
                column: "AccountId");

            migrationBuilder.CreateIndex(
                name: "IX_Members_NeighbourhoodId_AccountId",
                table: "Members",
                columns: new[] { "NeighbourhoodId", "AccountId" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "Accounts",
                column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "Accounts",
                column: "NormalizedUserName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                table: "AspNetUserClaims",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                table: "AspNetUserLogins",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangedRows_NeighbourhoodId_Kind_RowKey",
                table: "ChangedRows",
                columns: new[] { "NeighbourhoodId", "Kind", "RowKey" });

            migrationBuilder.CreateIndex(
                name: "IX_ChangedRows_NeighbourhoodId_YardId",
                table: "ChangedRows",
                columns: new[] { "NeighbourhoodId", "YardId" });

            migrationBuilder.CreateIndex(
                name: "IX_Changes_EraseAtUtc",
                table: "Changes",
                column: "EraseAtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Changes_NeighbourhoodId_UndoOfId",
                table: "Changes",
                columns: new[] { "NeighbourhoodId", "UndoOfId" });

            migrationBuilder.CreateIndex(
                name: "IX_Invitations_CodeHash",
                table: "Invitations",
                column: "CodeHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Invitations_NeighbourhoodId_MadeById",
                table: "Invitations",
                columns: new[] { "NeighbourhoodId", "MadeById" });

            migrationBuilder.CreateIndex(
                name: "IX_Invitations_NeighbourhoodId_UsedById",
                table: "Invitations",
                columns: new[] { "NeighbourhoodId", "UsedById" });

            migrationBuilder.CreateIndex(
                name: "IX_Passkeys_UserId",
                table: "Passkeys",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_Photos_NeighbourhoodId_AddedById",
                table: "Photos",
                columns: new[] { "NeighbourhoodId", "AddedById" });

            migrationBuilder.CreateIndex(
                name: "IX_Photos_NeighbourhoodId_YardId",
                table: "Photos",
                columns: new[] { "NeighbourhoodId", "YardId" });

            migrationBuilder.CreateIndex(
                name: "IX_PublishedYards_NeighbourhoodId_BlockId",
                table: "PublishedYards",
                columns: new[] { "NeighbourhoodId", "BlockId" });

            migrationBuilder.CreateIndex(
                name: "IX_Sessions_AccountId",
                table: "Sessions",
                column: "AccountId");

            migrationBuilder.AddForeignKey(
                name: "FK_Members_Accounts_AccountId",
                table: "Members",
                column: "AccountId",
                principalTable: "Accounts",
                principalColumn: "Id",
                onDelete: ReferentialAction.SetNull);

            // Until now one yes stood for both.
            migrationBuilder.Sql("UPDATE \"Yards\" SET \"OnMap\" = \"Shared\"");

            // History is only ever added to; of what a row held only the erasing is let through.
            migrationBuilder.Sql("""
                CREATE TRIGGER "Changes_kept" BEFORE DELETE ON "Changes" BEGIN SELECT RAISE(ABORT, 'History is not deleted.'); END;
                CREATE TRIGGER "ChangedRows_kept" BEFORE DELETE ON "ChangedRows" BEGIN SELECT RAISE(ABORT, 'History is not deleted.'); END;
                CREATE TRIGGER "Changes_unaltered" BEFORE UPDATE ON "Changes"
                WHEN NEW."EraseAtUtc" IS NOT NULL OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."Id" <> NEW."Id" OR OLD."AtUtc" <> NEW."AtUtc" OR OLD."What" <> NEW."What"
                  OR OLD."MemberId" IS NOT NEW."MemberId" OR OLD."By" IS NOT NEW."By" OR OLD."From" <> NEW."From" OR OLD."UndoOfId" IS NOT NEW."UndoOfId"
                BEGIN SELECT RAISE(ABORT, 'History is not altered.'); END;
                CREATE TRIGGER "ChangedRows_unaltered" BEFORE UPDATE ON "ChangedRows"
                WHEN NEW."Before" IS NOT NULL OR NEW."After" IS NOT NULL OR NEW."Print" NOT IN ('', OLD."Print") OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."ChangeId" <> NEW."ChangeId"
                  OR OLD."Ordinal" <> NEW."Ordinal" OR OLD."Kind" <> NEW."Kind" OR OLD."RowKey" <> NEW."RowKey" OR OLD."Did" <> NEW."Did" OR OLD."YardId" IS NOT NEW."YardId"
                BEGIN SELECT RAISE(ABORT, 'History is not altered.'); END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "FK_Members_Accounts_AccountId",
                table: "Members");

            migrationBuilder.DropTable(
                name: "AspNetUserClaims");

            migrationBuilder.DropTable(
                name: "AspNetUserLogins");

            migrationBuilder.DropTable(
                name: "AspNetUserTokens");

            migrationBuilder.DropTable(
                name: "ChangedRows");

            migrationBuilder.DropTable(
                name: "Invitations");

            migrationBuilder.DropTable(
                name: "Passkeys");

            migrationBuilder.DropTable(
                name: "Photos");

            migrationBuilder.DropTable(
                name: "PublishedYards");

            migrationBuilder.DropTable(
                name: "Sessions");

            migrationBuilder.DropTable(
                name: "Changes");

            migrationBuilder.DropTable(
                name: "Accounts");

            migrationBuilder.DropIndex(
                name: "IX_Members_AccountId",
                table: "Members");

            migrationBuilder.DropIndex(
                name: "IX_Members_NeighbourhoodId_AccountId",
                table: "Members");

            migrationBuilder.DropColumn(
                name: "OnMap",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "PhotosShared",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "Host",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "OffsetKey",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "OpenSignUp",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "AccountId",
                table: "Members");
        }
    }
}
