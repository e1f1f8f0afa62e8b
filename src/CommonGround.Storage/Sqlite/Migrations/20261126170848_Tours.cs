using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Tours : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Directions",
                table: "Yards",
                type: "TEXT",
                maxLength: 160,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "OnTour",
                table: "Yards",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "TourLine",
                table: "Yards",
                type: "TEXT",
                maxLength: 300,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "WouldPlant",
                table: "Yards",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "Tours",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "INTEGER", nullable: false),
                    Id = table.Column<long>(type: "INTEGER", nullable: false),
                    Key = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    On = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    StreetId = table.Column<long>(type: "INTEGER", nullable: true),
                    YardId = table.Column<long>(type: "INTEGER", nullable: true),
                    Meet = table.Column<string>(type: "TEXT", maxLength: 300, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Tours", x => new { x.NeighbourhoodId, x.Id });
                    table.CheckConstraint("CK_Tours_Place", "(\"StreetId\" IS NULL) <> (\"YardId\" IS NULL)");
                    table.ForeignKey(
                        name: "FK_Tours_Neighbourhoods_NeighbourhoodId",
                        column: x => x.NeighbourhoodId,
                        principalTable: "Neighbourhoods",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Tours_NeighbourhoodId_Key",
                table: "Tours",
                columns: new[] { "NeighbourhoodId", "Key" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Tours");

            migrationBuilder.DropColumn(
                name: "Directions",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "OnTour",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "TourLine",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "WouldPlant",
                table: "Yards");
        }
    }
}
