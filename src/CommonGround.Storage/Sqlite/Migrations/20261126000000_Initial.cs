using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
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
                name: "DataProtectionKeys",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    FriendlyName = table.Column<string>(type: "TEXT", nullable: true),
                    Xml = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DataProtectionKeys", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Neighbourhoods",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    IsDemo = table.Column<bool>(type: "INTEGER", nullable: false),
                    DemoToday = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    TimeZone = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    CatalogueFingerprint = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    Settings = table.Column<string>(type: "TEXT", nullable: false),
                    Rates = table.Column<string>(type: "TEXT", nullable: false),
                    OpenSignUp = table.Column<bool>(type: "INTEGER", nullable: false),
                    Host = table.Column<string>(type: "TEXT", maxLength: 253, nullable: false),
                    OffsetKey = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    PlaceName = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    State = table.Column<string>(type: "TEXT", maxLength: 2, nullable: false),
                    Latitude = table.Column<double>(type: "REAL", nullable: true),
                    Longitude = table.Column<double>(type: "REAL", nullable: true),
                    ElevationMetres = table.Column<double>(type: "REAL", nullable: true),
                    RegionalTable = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Neighbourhoods", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "SiteCounters",
                columns: table => new
                {
                    Name = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Value = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SiteCounters", x => x.Name);
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
                name: "ChangeStamps",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    LastChange = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChangeStamps", x => x.NeighbourhoodId);
                    table.ForeignKey(
                        name: "FK_ChangeStamps_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Members",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Role = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    AccountId = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Members", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Members_Accounts_AccountId",
                        column: x => x.AccountId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.SetNull);
                    table.ForeignKey(
                        name: "FK_Members_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Streets",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Streets", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Streets_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Taxa",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    ScientificName = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Unlisted = table.Column<bool>(type: "INTEGER", nullable: false),
                    Traits = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Taxa", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Taxa_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "WeatherDays",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Date = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    RainMillimetres = table.Column<double>(type: "REAL", nullable: true),
                    MinimumCelsius = table.Column<double>(type: "REAL", nullable: true),
                    MaximumCelsius = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_WeatherDays", x => new { x.NeighbourhoodId, x.Date });
                    table.CheckConstraint("CK_WeatherDays_Rain", "\"RainMillimetres\" IS NULL OR \"RainMillimetres\" >= 0");
                    table.ForeignKey(
                        name: "FK_WeatherDays_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
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
                    RowAction = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: true),
                    Before = table.Column<string>(type: "TEXT", nullable: true),
                    After = table.Column<string>(type: "TEXT", nullable: true),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Columns = table.Column<string>(type: "TEXT", nullable: true)
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
                name: "Blocks",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    StreetId = table.Column<long>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Geometry = table.Column<string>(type: "TEXT", nullable: true),
                    MiddleLatitude = table.Column<double>(type: "REAL", nullable: true),
                    MiddleLongitude = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Blocks", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Blocks_Streets_NeighbourhoodId_StreetId",
                        columns: x => new { x.NeighbourhoodId, x.StreetId },
                        principalTable: "Streets",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "PlantNotes",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    Trait = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Text = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    WrittenById = table.Column<long>(type: "INTEGER", nullable: true),
                    WrittenAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ClosedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Answer = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PlantNotes", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_PlantNotes_Members_NeighbourhoodId_WrittenById",
                        columns: x => new { x.NeighbourhoodId, x.WrittenById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_PlantNotes_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "PlantOverrides",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    Trait = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Value = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    SetById = table.Column<long>(type: "INTEGER", nullable: true),
                    SetAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PlantOverrides", x => new { x.NeighbourhoodId, x.TaxonId, x.Trait });
                    table.ForeignKey(
                        name: "FK_PlantOverrides_Members_NeighbourhoodId_SetById",
                        columns: x => new { x.NeighbourhoodId, x.SetById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_PlantOverrides_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Prices",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    SeedPerGram = table.Column<double>(type: "REAL", nullable: true),
                    PlugEach = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Prices", x => new { x.NeighbourhoodId, x.TaxonId });
                    table.CheckConstraint("CK_Prices_Plug", "\"PlugEach\" IS NULL OR \"PlugEach\" >= 0");
                    table.CheckConstraint("CK_Prices_Seed", "\"SeedPerGram\" IS NULL OR \"SeedPerGram\" >= 0");
                    table.ForeignKey(
                        name: "FK_Prices_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
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
                    SinceUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
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
                name: "Yards",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    BlockId = table.Column<long>(type: "INTEGER", nullable: false),
                    Code = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Latitude = table.Column<double>(type: "REAL", nullable: false),
                    Longitude = table.Column<double>(type: "REAL", nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "REAL", nullable: false),
                    LawnSquareMetres = table.Column<double>(type: "REAL", nullable: true),
                    Light = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    Moisture = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    SoilGroup = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    Household = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    Shared = table.Column<bool>(type: "INTEGER", nullable: false),
                    OnMap = table.Column<bool>(type: "INTEGER", nullable: false),
                    OffsetNorthMetres = table.Column<double>(type: "REAL", nullable: false),
                    OffsetEastMetres = table.Column<double>(type: "REAL", nullable: false),
                    PhotosShared = table.Column<bool>(type: "INTEGER", nullable: false),
                    OwnerId = table.Column<long>(type: "INTEGER", nullable: true),
                    RegisteredOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Yards", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Yards_Area", "\"AreaSquareMetres\" > 0");
                    table.CheckConstraint("CK_Yards_Latitude", "\"Latitude\" BETWEEN -90 AND 90");
                    table.CheckConstraint("CK_Yards_Lawn", "\"LawnSquareMetres\" IS NULL OR \"LawnSquareMetres\" >= 0 AND \"LawnSquareMetres\" <= \"AreaSquareMetres\"");
                    table.CheckConstraint("CK_Yards_Longitude", "\"Longitude\" BETWEEN -180 AND 180");
                    table.ForeignKey(
                        name: "FK_Yards_Blocks_NeighbourhoodId_BlockId",
                        columns: x => new { x.NeighbourhoodId, x.BlockId },
                        principalTable: "Blocks",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Yards_Members_NeighbourhoodId_OwnerId",
                        columns: x => new { x.NeighbourhoodId, x.OwnerId },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Beds",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "REAL", nullable: true),
                    EstablishedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Light = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    Moisture = table.Column<string>(type: "TEXT", maxLength: 20, nullable: true),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Beds", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Beds_Area", "\"AreaSquareMetres\" IS NULL OR \"AreaSquareMetres\" > 0");
                    table.ForeignKey(
                        name: "FK_Beds_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Infestations",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    BlockId = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: true),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    ObservedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "REAL", nullable: false),
                    CoverPercent = table.Column<double>(type: "REAL", nullable: false),
                    GrowthStage = table.Column<int>(type: "INTEGER", nullable: true),
                    Remarks = table.Column<string>(type: "TEXT", nullable: false),
                    RecordedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Infestations", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Infestations_Area", "\"AreaSquareMetres\" >= 0");
                    table.CheckConstraint("CK_Infestations_Cover", "\"CoverPercent\" BETWEEN 0 AND 100");
                    table.CheckConstraint("CK_Infestations_Stage", "\"GrowthStage\" IS NULL OR \"GrowthStage\" BETWEEN 0 AND 9");
                    table.ForeignKey(
                        name: "FK_Infestations_Blocks_NeighbourhoodId_BlockId",
                        columns: x => new { x.NeighbourhoodId, x.BlockId },
                        principalTable: "Blocks",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Infestations_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Infestations_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
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
                name: "Plans",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Request = table.Column<string>(type: "TEXT", nullable: false),
                    Shares = table.Column<string>(type: "TEXT", nullable: false),
                    MadeOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    MadeById = table.Column<long>(type: "INTEGER", nullable: true),
                    MadeAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Plans", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Plans_Number", "\"Number\" >= 1");
                    table.ForeignKey(
                        name: "FK_Plans_Members_NeighbourhoodId_MadeById",
                        columns: x => new { x.NeighbourhoodId, x.MadeById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Plans_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Sightings",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    BedId = table.Column<long>(type: "INTEGER", nullable: false),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: false),
                    Patch = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    ObservedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Finding = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    CoverSquareMetres = table.Column<double>(type: "REAL", nullable: false),
                    Count = table.Column<int>(type: "INTEGER", nullable: true),
                    CoverDerived = table.Column<bool>(type: "INTEGER", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Certainty = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Qualifier = table.Column<string>(type: "TEXT", maxLength: 8, nullable: false),
                    VerifiedBy = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    GrowthStage = table.Column<int>(type: "INTEGER", nullable: true),
                    Observer = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    RecordedById = table.Column<long>(type: "INTEGER", nullable: true),
                    Remarks = table.Column<string>(type: "TEXT", nullable: false),
                    RecordedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sightings", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Sightings_Count", "\"Count\" IS NULL OR \"Count\" >= 0");
                    table.CheckConstraint("CK_Sightings_Cover", "\"CoverSquareMetres\" >= 0");
                    table.CheckConstraint("CK_Sightings_Finding", "\"Finding\" = 'Growing' OR \"CoverSquareMetres\" = 0");
                    table.CheckConstraint("CK_Sightings_Stage", "\"GrowthStage\" IS NULL OR \"GrowthStage\" BETWEEN 0 AND 9");
                    table.ForeignKey(
                        name: "FK_Sightings_Beds_NeighbourhoodId_BedId",
                        columns: x => new { x.NeighbourhoodId, x.BedId },
                        principalTable: "Beds",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Sightings_Members_NeighbourhoodId_RecordedById",
                        columns: x => new { x.NeighbourhoodId, x.RecordedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Sightings_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Sightings_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

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
                name: "IX_Beds_NeighbourhoodId_YardId_Name",
                table: "Beds",
                columns: new[] { "NeighbourhoodId", "YardId", "Name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Blocks_NeighbourhoodId_StreetId_Name",
                table: "Blocks",
                columns: new[] { "NeighbourhoodId", "StreetId", "Name" },
                unique: true);

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
                name: "IX_Infestations_NeighbourhoodId_BlockId_YardId_TaxonId_ObservedOn",
                table: "Infestations",
                columns: new[] { "NeighbourhoodId", "BlockId", "YardId", "TaxonId", "ObservedOn" });

            migrationBuilder.CreateIndex(
                name: "IX_Infestations_NeighbourhoodId_TaxonId",
                table: "Infestations",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_Infestations_NeighbourhoodId_YardId",
                table: "Infestations",
                columns: new[] { "NeighbourhoodId", "YardId" });

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
                name: "IX_Members_AccountId",
                table: "Members",
                column: "AccountId");

            migrationBuilder.CreateIndex(
                name: "IX_Members_NeighbourhoodId_AccountId",
                table: "Members",
                columns: new[] { "NeighbourhoodId", "AccountId" },
                unique: true);

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
                name: "IX_Plans_NeighbourhoodId_MadeById",
                table: "Plans",
                columns: new[] { "NeighbourhoodId", "MadeById" });

            migrationBuilder.CreateIndex(
                name: "IX_Plans_NeighbourhoodId_YardId_Number",
                table: "Plans",
                columns: new[] { "NeighbourhoodId", "YardId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_PlantNotes_NeighbourhoodId_ClosedAtUtc",
                table: "PlantNotes",
                columns: new[] { "NeighbourhoodId", "ClosedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_PlantNotes_NeighbourhoodId_TaxonId",
                table: "PlantNotes",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_PlantNotes_NeighbourhoodId_WrittenById",
                table: "PlantNotes",
                columns: new[] { "NeighbourhoodId", "WrittenById" });

            migrationBuilder.CreateIndex(
                name: "IX_PlantOverrides_NeighbourhoodId_SetById",
                table: "PlantOverrides",
                columns: new[] { "NeighbourhoodId", "SetById" });

            migrationBuilder.CreateIndex(
                name: "IX_PublishedYards_NeighbourhoodId_BlockId",
                table: "PublishedYards",
                columns: new[] { "NeighbourhoodId", "BlockId" });

            migrationBuilder.CreateIndex(
                name: "IX_PublishedYards_NeighbourhoodId_Number",
                table: "PublishedYards",
                columns: new[] { "NeighbourhoodId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Sessions_AccountId",
                table: "Sessions",
                column: "AccountId");

            migrationBuilder.CreateIndex(
                name: "IX_Sightings_NeighbourhoodId_BedId",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "BedId" });

            migrationBuilder.CreateIndex(
                name: "IX_Sightings_NeighbourhoodId_RecordedById",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "RecordedById" });

            migrationBuilder.CreateIndex(
                name: "IX_Sightings_NeighbourhoodId_TaxonId",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_Sightings_NeighbourhoodId_YardId_BedId_TaxonId_Patch_ObservedOn",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "YardId", "BedId", "TaxonId", "Patch", "ObservedOn" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Streets_NeighbourhoodId_Name",
                table: "Streets",
                columns: new[] { "NeighbourhoodId", "Name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Taxa_NeighbourhoodId_ScientificName",
                table: "Taxa",
                columns: new[] { "NeighbourhoodId", "ScientificName" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Yards_NeighbourhoodId_BlockId",
                table: "Yards",
                columns: new[] { "NeighbourhoodId", "BlockId" });

            migrationBuilder.CreateIndex(
                name: "IX_Yards_NeighbourhoodId_Code",
                table: "Yards",
                columns: new[] { "NeighbourhoodId", "Code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Yards_NeighbourhoodId_OwnerId",
                table: "Yards",
                columns: new[] { "NeighbourhoodId", "OwnerId" });

            // History is only ever added to; of what a row held only the erasing is let through.
            migrationBuilder.Sql("""
                CREATE TRIGGER "Changes_kept" BEFORE DELETE ON "Changes" BEGIN SELECT RAISE(ABORT, 'History is not deleted.'); END;
                CREATE TRIGGER "ChangedRows_kept" BEFORE DELETE ON "ChangedRows" BEGIN SELECT RAISE(ABORT, 'History is not deleted.'); END;
                CREATE TRIGGER "Changes_unaltered" BEFORE UPDATE ON "Changes"
                WHEN NEW."EraseAtUtc" IS NOT NULL OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."Id" <> NEW."Id"
                  OR OLD."AtUtc" <> NEW."AtUtc" OR OLD."What" <> NEW."What" OR OLD."MemberId" IS NOT NEW."MemberId" OR OLD."By" IS NOT NEW."By"
                  OR OLD."From" <> NEW."From" OR OLD."UndoOfId" IS NOT NEW."UndoOfId"
                BEGIN SELECT RAISE(ABORT, 'History is not altered.'); END;
                CREATE TRIGGER "ChangedRows_unaltered" BEFORE UPDATE ON "ChangedRows"
                WHEN NEW."Before" IS NOT NULL OR NEW."After" IS NOT NULL OR NEW."Hash" NOT IN ('', OLD."Hash")
                  OR OLD."NeighbourhoodId" <> NEW."NeighbourhoodId" OR OLD."ChangeId" <> NEW."ChangeId" OR OLD."Ordinal" <> NEW."Ordinal"
                  OR OLD."Kind" <> NEW."Kind" OR OLD."RowKey" <> NEW."RowKey" OR OLD."RowAction" <> NEW."RowAction"
                  OR OLD."YardId" IS NOT NEW."YardId" OR OLD."Columns" IS NOT NEW."Columns"
                BEGIN SELECT RAISE(ABORT, 'History is not altered.'); END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "AspNetUserClaims");

            migrationBuilder.DropTable(
                name: "AspNetUserLogins");

            migrationBuilder.DropTable(
                name: "AspNetUserTokens");

            migrationBuilder.DropTable(
                name: "ChangedRows");

            migrationBuilder.DropTable(
                name: "ChangeStamps");

            migrationBuilder.DropTable(
                name: "DataProtectionKeys");

            migrationBuilder.DropTable(
                name: "Infestations");

            migrationBuilder.DropTable(
                name: "Invitations");

            migrationBuilder.DropTable(
                name: "Passkeys");

            migrationBuilder.DropTable(
                name: "Photos");

            migrationBuilder.DropTable(
                name: "Plans");

            migrationBuilder.DropTable(
                name: "PlantNotes");

            migrationBuilder.DropTable(
                name: "PlantOverrides");

            migrationBuilder.DropTable(
                name: "Prices");

            migrationBuilder.DropTable(
                name: "PublishedYards");

            migrationBuilder.DropTable(
                name: "Sessions");

            migrationBuilder.DropTable(
                name: "Sightings");

            migrationBuilder.DropTable(
                name: "SiteCounters");

            migrationBuilder.DropTable(
                name: "WeatherDays");

            migrationBuilder.DropTable(
                name: "Changes");

            migrationBuilder.DropTable(
                name: "Beds");

            migrationBuilder.DropTable(
                name: "Taxa");

            migrationBuilder.DropTable(
                name: "Yards");

            migrationBuilder.DropTable(
                name: "Blocks");

            migrationBuilder.DropTable(
                name: "Members");

            migrationBuilder.DropTable(
                name: "Streets");

            migrationBuilder.DropTable(
                name: "Accounts");

            migrationBuilder.DropTable(
                name: "Neighbourhoods");
        }
    }
}
