// Requirement: where a firm names a server of map tiles, a site is seen on its map; without one,
// nothing is missing but the picture. Tiles are numbered by WebMercatorQuad (OGC Two Dimensional
// Tile Matrix Set, 17-083r4, annex on EPSG:3857).
import { at, drawing, escaped } from "./svg.ts";

const TILE = 256;
const WIDTH = 760;
const HEIGHT = 320;
/** Past this latitude the projection is not square any more. */
const LATITUDE_MOST = (Math.atan(Math.sinh(Math.PI)) * 180) / Math.PI;

export interface MapWish {
  latitude: number;
  longitude: number;
  /** 0 is the whole world in one tile; each step doubles the scale. */
  zoom: number;
  /** Address with {z}, {x} and {y} in it. */
  template: string;
  title: string;
}

/**
 * Column and row of a place at a zoom, in tiles and parts of them from the north-west corner.
 * @returns both from 0 to 2^zoom
 */
export function tilePlace(
  latitude: number,
  longitude: number,
  zoom: number,
): { column: number; row: number } {
  const across = 2 ** zoom;
  const held = Math.min(LATITUDE_MOST, Math.max(-LATITUDE_MOST, latitude));
  const north = Math.asinh(Math.tan((held * Math.PI) / 180)) / Math.PI;
  return { column: ((longitude + 180) / 360) * across, row: ((1 - north) / 2) * across };
}

/** The map as an SVG element with the place marked in its middle. */
export function drawMap({ latitude, longitude, zoom, template, title }: MapWish): string {
  const place = tilePlace(latitude, longitude, zoom);
  const across = 2 ** zoom;
  const [wide, high] = [WIDTH / TILE / 2, HEIGHT / TILE / 2];
  const tiles: string[] = [];
  for (let row = Math.floor(place.row - high); row < place.row + high; row += 1) {
    for (let column = Math.floor(place.column - wide); column < place.column + wide; column += 1) {
      if (row < 0 || row >= across) continue;
      const x = WIDTH / 2 + (column - place.column) * TILE;
      const y = HEIGHT / 2 + (row - place.row) * TILE;
      // The world goes round: west of the first column lies the last.
      const address = addressOf(template, zoom, ((column % across) + across) % across, row);
      const where = `x="${at(x)}" y="${at(y)}" width="${TILE}" height="${TILE}"`;
      tiles.push(`<image href="${escaped(address)}" ${where}/>`);
    }
  }
  return drawing(WIDTH, HEIGHT, title, [...tiles, ring("#fff", 6), ring("#9b2418", 3)]);
}

const ring = (colour: string, width: number): string =>
  `<circle cx="${WIDTH / 2}" cy="${HEIGHT / 2}" r="9" fill="none" stroke="${colour}" ` +
  `stroke-width="${width}"/>`;

const addressOf = (template: string, zoom: number, column: number, row: number): string =>
  template
    .replaceAll("{z}", String(zoom))
    .replaceAll("{x}", String(column))
    .replaceAll("{y}", String(row));
