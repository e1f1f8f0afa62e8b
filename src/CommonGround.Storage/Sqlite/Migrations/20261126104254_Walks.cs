using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Walks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "PlaceInBed",
                table: "Sightings",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<double>(
                name: "SeedCollectedGrams",
                table: "Sightings",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "BedId",
                table: "Photos",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Patch",
                table: "Photos",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<int>(
                name: "TaxonId",
                table: "Photos",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "ReceivedNotes",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    ClientId = table.Column<Guid>(type: "TEXT", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    RowId = table.Column<long>(type: "INTEGER", nullable: true),
                    MemberId = table.Column<long>(type: "INTEGER", nullable: true),
                    SaidAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReceivedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Said = table.Column<string>(type: "TEXT", nullable: false),
                    Left = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReceivedNotes", x => new { x.NeighbourhoodId, x.ClientId });
                    table.ForeignKey(
                        name: "FK_ReceivedNotes_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Walks",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    WalkedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Minutes = table.Column<int>(type: "INTEGER", nullable: false),
                    Looked = table.Column<int>(type: "INTEGER", nullable: false),
                    Observer = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    RecordedById = table.Column<long>(type: "INTEGER", nullable: true),
                    RecordedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Walks", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Walks_Effort", "\"Minutes\" >= 1 AND \"Looked\" >= 0");
                    table.ForeignKey(
                        name: "FK_Walks_Members_NeighbourhoodId_RecordedById",
                        columns: x => new { x.NeighbourhoodId, x.RecordedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Walks_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Wildlife",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    YardId = table.Column<long>(type: "INTEGER", nullable: false),
                    BedId = table.Column<long>(type: "INTEGER", nullable: true),
                    TaxonId = table.Column<int>(type: "INTEGER", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    CountClass = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    ObservedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Observer = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    RecordedById = table.Column<long>(type: "INTEGER", nullable: true),
                    RecordedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Wildlife", x => new { x.NeighbourhoodId, x.Id });
                    table.ForeignKey(
                        name: "FK_Wildlife_Beds_NeighbourhoodId_BedId",
                        columns: x => new { x.NeighbourhoodId, x.BedId },
                        principalTable: "Beds",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Wildlife_Members_NeighbourhoodId_RecordedById",
                        columns: x => new { x.NeighbourhoodId, x.RecordedById },
                        principalTable: "Members",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Wildlife_Taxa_NeighbourhoodId_TaxonId",
                        columns: x => new { x.NeighbourhoodId, x.TaxonId },
                        principalTable: "Taxa",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Wildlife_Yards_NeighbourhoodId_YardId",
                        columns: x => new { x.NeighbourhoodId, x.YardId },
                        principalTable: "Yards",
                        principalColumns: new[] { "NeighbourhoodId", "Id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.AddCheckConstraint(
                name: "CK_Sightings_Seed",
                table: "Sightings",
                sql: "\"SeedCollectedGrams\" IS NULL OR \"SeedCollectedGrams\" > 0");

            migrationBuilder.CreateIndex(
                name: "IX_Photos_NeighbourhoodId_BedId",
                table: "Photos",
                columns: new[] { "NeighbourhoodId", "BedId" });

            migrationBuilder.CreateIndex(
                name: "IX_Photos_NeighbourhoodId_TaxonId",
                table: "Photos",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_ReceivedNotes_NeighbourhoodId_RowId",
                table: "ReceivedNotes",
                columns: new[] { "NeighbourhoodId", "RowId" });

            migrationBuilder.CreateIndex(
                name: "IX_Walks_NeighbourhoodId_RecordedById",
                table: "Walks",
                columns: new[] { "NeighbourhoodId", "RecordedById" });

            migrationBuilder.CreateIndex(
                name: "IX_Walks_NeighbourhoodId_YardId_WalkedOn",
                table: "Walks",
                columns: new[] { "NeighbourhoodId", "YardId", "WalkedOn" });

            migrationBuilder.CreateIndex(
                name: "IX_Wildlife_NeighbourhoodId_BedId",
                table: "Wildlife",
                columns: new[] { "NeighbourhoodId", "BedId" });

            migrationBuilder.CreateIndex(
                name: "IX_Wildlife_NeighbourhoodId_RecordedById",
                table: "Wildlife",
                columns: new[] { "NeighbourhoodId", "RecordedById" });

            migrationBuilder.CreateIndex(
                name: "IX_Wildlife_NeighbourhoodId_TaxonId",
                table: "Wildlife",
                columns: new[] { "NeighbourhoodId", "TaxonId" });

            migrationBuilder.CreateIndex(
                name: "IX_Wildlife_NeighbourhoodId_YardId_ObservedOn",
                table: "Wildlife",
                columns: new[] { "NeighbourhoodId", "YardId", "ObservedOn" });

            migrationBuilder.AddForeignKey(
                name: "FK_Photos_Beds_NeighbourhoodId_BedId",
                table: "Photos",
                columns: new[] { "NeighbourhoodId", "BedId" },
                principalTable: "Beds",
                principalColumns: new[] { "NeighbourhoodId", "Id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "FK_Photos_Taxa_NeighbourhoodId_TaxonId",
                table: "Photos",
                columns: new[] { "NeighbourhoodId", "TaxonId" },
                principalTable: "Taxa",
                principalColumns: new[] { "NeighbourhoodId", "Id" },
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "FK_Photos_Beds_NeighbourhoodId_BedId",
                table: "Photos");

            migrationBuilder.DropForeignKey(
                name: "FK_Photos_Taxa_NeighbourhoodId_TaxonId",
                table: "Photos");

            migrationBuilder.DropTable(
                name: "ReceivedNotes");

            migrationBuilder.DropTable(
                name: "Walks");

            migrationBuilder.DropTable(
                name: "Wildlife");

            migrationBuilder.DropCheckConstraint(
                name: "CK_Sightings_Seed",
                table: "Sightings");

            migrationBuilder.DropIndex(
                name: "IX_Photos_NeighbourhoodId_BedId",
                table: "Photos");

            migrationBuilder.DropIndex(
                name: "IX_Photos_NeighbourhoodId_TaxonId",
                table: "Photos");

            migrationBuilder.DropColumn(
                name: "PlaceInBed",
                table: "Sightings");

            migrationBuilder.DropColumn(
                name: "SeedCollectedGrams",
                table: "Sightings");

            migrationBuilder.DropColumn(
                name: "BedId",
                table: "Photos");

            migrationBuilder.DropColumn(
                name: "Patch",
                table: "Photos");

            migrationBuilder.DropColumn(
                name: "TaxonId",
                table: "Photos");
        }
    }
}
