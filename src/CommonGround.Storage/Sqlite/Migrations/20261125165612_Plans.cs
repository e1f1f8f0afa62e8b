using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Plans : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Rates",
                table: "Neighbourhoods",
                type: "TEXT",
                nullable: false,
                defaultValue: "");

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

            migrationBuilder.AddCheckConstraint(
                name: "CK_Yards_Area",
                table: "Yards",
                sql: "\"AreaSquareMetres\" > 0");

            migrationBuilder.AddCheckConstraint(
                name: "CK_Sightings_Count",
                table: "Sightings",
                sql: "\"Count\" IS NULL OR \"Count\" >= 0");

            migrationBuilder.AddCheckConstraint(
                name: "CK_Infestations_Stage",
                table: "Infestations",
                sql: "\"GrowthStage\" IS NULL OR \"GrowthStage\" BETWEEN 0 AND 9");

            migrationBuilder.CreateIndex(
                name: "IX_Plans_NeighbourhoodId_MadeById",
                table: "Plans",
                columns: new[] { "NeighbourhoodId", "MadeById" });

            migrationBuilder.CreateIndex(
                name: "IX_Plans_NeighbourhoodId_YardId_Number",
                table: "Plans",
                columns: new[] { "NeighbourhoodId", "YardId", "Number" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Plans");

            migrationBuilder.DropTable(
                name: "Prices");

            migrationBuilder.DropCheckConstraint(
                name: "CK_Yards_Area",
                table: "Yards");

            migrationBuilder.DropCheckConstraint(
                name: "CK_Sightings_Count",
                table: "Sightings");

            migrationBuilder.DropCheckConstraint(
                name: "CK_Infestations_Stage",
                table: "Infestations");

            migrationBuilder.DropColumn(
                name: "Rates",
                table: "Neighbourhoods");
        }
    }
}
