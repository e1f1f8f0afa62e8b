using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
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
                type: "character varying(160)",
                maxLength: 160,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "OnTour",
                table: "Yards",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "TourLine",
                table: "Yards",
                type: "character varying(300)",
                maxLength: 300,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "WouldPlant",
                table: "Yards",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "Tours",
                columns: table => new
                {
                    NeighbourhoodId = table.Column<int>(type: "integer", nullable: false),
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Key = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    On = table.Column<DateOnly>(type: "date", nullable: false),
                    StreetId = table.Column<long>(type: "bigint", nullable: true),
                    YardId = table.Column<long>(type: "bigint", nullable: true),
                    Meet = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false)
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
