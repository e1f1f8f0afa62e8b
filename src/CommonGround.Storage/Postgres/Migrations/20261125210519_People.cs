using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
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
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "PhotosShared",
                table: "Yards",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "Host",
                table: "Neighbourhoods",
                type: "character varying(253)",
                maxLength: 253,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "OffsetKey",
                table: "Neighbourhoods",
                type: "character varying(64)",
                maxLength: 64,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "OpenSignUp",
                table: "Neighbourhoods",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<long>(
                name: "AccountId",
                table: "Members",
                type: "bigint",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "Accounts",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    DeletionAskedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    UserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    PasswordHash = table.Column<string>(type: "text", nullable: true),
                    SecurityStamp = table.Column<string>(type: "text", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "text", nullable: true),
                    PhoneNumber = table.Column<string>(type: "text", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Accounts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Changes",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    What = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false),
                    MemberId = table.Column<long>(type: "bigint", nullable: true),
                    By = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    From = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    UndoOfId = table.Column<long>(type: "bigint", nullable: true),
                    EraseAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    CodeHash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    Role = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    ForWhom = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: false),
                    MadeById = table.Column<long>(type: "bigint", nullable: true),
                    MadeAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EndsAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    UsedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    UsedById = table.Column<long>(type: "bigint", nullable: true),
                    WithdrawnAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<Guid>(type: "uuid", nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    YardId = table.Column<long>(type: "bigint", nullable: false),
                    FileName = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Sha256 = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    Caption = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    TakenOn = table.Column<DateOnly>(type: "date", nullable: false),
                    AddedById = table.Column<long>(type: "bigint", nullable: true),
                    AddedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    BlockId = table.Column<long>(type: "bigint", nullable: false),
                    Yards = table.Column<string>(type: "text", nullable: false),
                    SinceUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    UserId = table.Column<long>(type: "bigint", nullable: false),
                    ClaimType = table.Column<string>(type: "text", nullable: true),
                    ClaimValue = table.Column<string>(type: "text", nullable: true)
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
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    ProviderKey = table.Column<string>(type: "text", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "text", nullable: true),
                    UserId = table.Column<long>(type: "bigint", nullable: false)
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
                    UserId = table.Column<long>(type: "bigint", nullable: false),
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true)
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
                    CredentialId = table.Column<byte[]>(type: "bytea", maxLength: 1024, nullable: false),
                    UserId = table.Column<long>(type: "bigint", nullable: false),
                    Data = table.Column<string>(type: "jsonb", nullable: false)
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
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    AccountId = table.Column<long>(type: "bigint", nullable: false),
                    StartedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    SeenAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EndsAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Device = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    From = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    ChangeId = table.Column<long>(type: "bigint", nullable: false),
                    Ordinal = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    RowKey = table.Column<string>(type: "character varying(80)", maxLength: 80, nullable: false),
                    Did = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    YardId = table.Column<long>(type: "bigint", nullable: true),
                    Before = table.Column<string>(type: "text", nullable: true),
                    After = table.Column<string>(type: "text", nullable: true),
                    Print = table.Column<string>(type: "character varying(16)", maxLength: 16, nullable: false)
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
                CREATE FUNCTION history_kept() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'History is not deleted.'; END $$;
                CREATE FUNCTION history_unaltered() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'History is not altered.'; END $$;
                CREATE TRIGGER "Changes_kept" BEFORE DELETE ON "Changes" FOR EACH ROW EXECUTE FUNCTION history_kept();
                CREATE TRIGGER "ChangedRows_kept" BEFORE DELETE ON "ChangedRows" FOR EACH ROW EXECUTE FUNCTION history_kept();
                CREATE TRIGGER "Changes_emptied" BEFORE TRUNCATE ON "Changes" FOR EACH STATEMENT EXECUTE FUNCTION history_kept();
                CREATE TRIGGER "ChangedRows_emptied" BEFORE TRUNCATE ON "ChangedRows" FOR EACH STATEMENT EXECUTE FUNCTION history_kept();
                CREATE TRIGGER "Changes_unaltered" BEFORE UPDATE ON "Changes" FOR EACH ROW
                WHEN (NEW."EraseAtUtc" IS NOT NULL OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."Id" <> NEW."Id" OR OLD."AtUtc" <> NEW."AtUtc" OR OLD."What" <> NEW."What"
                  OR OLD."MemberId" IS DISTINCT FROM NEW."MemberId" OR OLD."By" IS DISTINCT FROM NEW."By" OR OLD."From" <> NEW."From" OR OLD."UndoOfId" IS DISTINCT FROM NEW."UndoOfId")
                EXECUTE FUNCTION history_unaltered();
                CREATE TRIGGER "ChangedRows_unaltered" BEFORE UPDATE ON "ChangedRows" FOR EACH ROW
                WHEN (NEW."Before" IS NOT NULL OR NEW."After" IS NOT NULL OR NEW."Print" NOT IN ('', OLD."Print") OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."ChangeId" <> NEW."ChangeId"
                  OR OLD."Ordinal" <> NEW."Ordinal" OR OLD."Kind" <> NEW."Kind" OR OLD."RowKey" <> NEW."RowKey" OR OLD."Did" <> NEW."Did" OR OLD."YardId" IS DISTINCT FROM NEW."YardId")
                EXECUTE FUNCTION history_unaltered();
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
