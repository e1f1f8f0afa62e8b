using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class Start : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Neighbourhoods",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    IsDemo = table.Column<bool>(type: "boolean", nullable: false),
                    DemoToday = table.Column<DateOnly>(type: "date", nullable: true),
                    TimeZone = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    CatalogueFingerprint = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    Settings = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Neighbourhoods", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Members",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Role = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Members", x => new { x.NeighbourhoodId, x.Id });
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<int>(type: "integer", nullable: false),
                    ScientificName = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Unlisted = table.Column<bool>(type: "boolean", nullable: false),
                    Traits = table.Column<string>(type: "text", nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Date = table.Column<DateOnly>(type: "date", nullable: false),
                    RainMillimetres = table.Column<double>(type: "double precision", nullable: true),
                    MinimumCelsius = table.Column<double>(type: "double precision", nullable: true),
                    MaximumCelsius = table.Column<double>(type: "double precision", nullable: true)
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
                name: "Blocks",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    StreetId = table.Column<long>(type: "bigint", nullable: false),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Geometry = table.Column<string>(type: "text", nullable: true),
                    MiddleLatitude = table.Column<double>(type: "double precision", nullable: true),
                    MiddleLongitude = table.Column<double>(type: "double precision", nullable: true)
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
                name: "Yards",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    BlockId = table.Column<long>(type: "bigint", nullable: false),
                    Code = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Latitude = table.Column<double>(type: "double precision", nullable: false),
                    Longitude = table.Column<double>(type: "double precision", nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "double precision", nullable: false),
                    LawnSquareMetres = table.Column<double>(type: "double precision", nullable: true),
                    Light = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    Moisture = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    SoilGroup = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    Household = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Shared = table.Column<bool>(type: "boolean", nullable: false),
                    OwnerId = table.Column<long>(type: "bigint", nullable: true),
                    RegisteredOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Yards", x => new { x.NeighbourhoodId, x.Id });
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    YardId = table.Column<long>(type: "bigint", nullable: false),
                    Name = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "double precision", nullable: true),
                    EstablishedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Light = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    Moisture = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: true),
                    Version = table.Column<Guid>(type: "uuid", nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    BlockId = table.Column<long>(type: "bigint", nullable: false),
                    YardId = table.Column<long>(type: "bigint", nullable: true),
                    TaxonId = table.Column<int>(type: "integer", nullable: false),
                    ObservedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    AreaSquareMetres = table.Column<double>(type: "double precision", nullable: false),
                    CoverPercent = table.Column<double>(type: "double precision", nullable: false),
                    GrowthStage = table.Column<int>(type: "integer", nullable: true),
                    Remarks = table.Column<string>(type: "text", nullable: false),
                    RecordedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Infestations", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Infestations_Area", "\"AreaSquareMetres\" >= 0");
                    table.CheckConstraint("CK_Infestations_Cover", "\"CoverPercent\" BETWEEN 0 AND 100");
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
                name: "Sightings",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    YardId = table.Column<long>(type: "bigint", nullable: false),
                    BedId = table.Column<long>(type: "bigint", nullable: false),
                    TaxonId = table.Column<int>(type: "integer", nullable: false),
                    ObservedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    CoverSquareMetres = table.Column<double>(type: "double precision", nullable: false),
                    Count = table.Column<int>(type: "integer", nullable: true),
                    CoverDerived = table.Column<bool>(type: "boolean", nullable: false),
                    Origin = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Certainty = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Qualifier = table.Column<string>(type: "character varying(8)", maxLength: 8, nullable: false),
                    GrowthStage = table.Column<int>(type: "integer", nullable: true),
                    Observer = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    RecordedById = table.Column<long>(type: "bigint", nullable: true),
                    Remarks = table.Column<string>(type: "text", nullable: false),
                    RecordedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sightings", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Sightings_Cover", "\"CoverSquareMetres\" >= 0");
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
                name: "IX_Infestations_NeighbourhoodId_BlockId_YardId_TaxonId_Observe~",
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
                name: "IX_Sightings_NeighbourhoodId_YardId_BedId_TaxonId_ObservedOn",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "YardId", "BedId", "TaxonId", "ObservedOn" },
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
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Infestations");

            migrationBuilder.DropTable(
                name: "Sightings");

            migrationBuilder.DropTable(
                name: "WeatherDays");

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
                name: "Neighbourhoods");
        }
    }
}
