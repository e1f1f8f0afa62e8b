using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class StampsAndPlantValues : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "ChangeStamps",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    LastChange = table.Column<long>(type: "bigint", nullable: false)
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
                name: "DataProtectionKeys",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    FriendlyName = table.Column<string>(type: "text", nullable: true),
                    Xml = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DataProtectionKeys", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "PlantNotes",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TaxonId = table.Column<int>(type: "integer", nullable: false),
                    Trait = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Text = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false),
                    WrittenById = table.Column<long>(type: "bigint", nullable: true),
                    WrittenAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ClosedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Answer = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    Version = table.Column<Guid>(type: "uuid", nullable: false)
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
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    TaxonId = table.Column<int>(type: "integer", nullable: false),
                    Trait = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Value = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    SetById = table.Column<long>(type: "bigint", nullable: true),
                    SetAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Version = table.Column<Guid>(type: "uuid", nullable: false)
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
                name: "SiteCounters",
                columns: table => new
                {
                    Name = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Value = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SiteCounters", x => x.Name);
                });

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

            // A neighbourhood's stamp goes on from its newest change.
            migrationBuilder.Sql("""
                INSERT INTO "ChangeStamps" ("NeighbourhoodId", "LastChange")
                SELECT n."Id", COALESCE((SELECT MAX(c."Id") FROM "Changes" c WHERE c."NeighbourhoodId" = n."Id"), 0) FROM "Neighbourhoods" n
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "ChangeStamps");

            migrationBuilder.DropTable(
                name: "DataProtectionKeys");

            migrationBuilder.DropTable(
                name: "PlantNotes");

            migrationBuilder.DropTable(
                name: "PlantOverrides");

            migrationBuilder.DropTable(
                name: "SiteCounters");
        }
    }
}
