// The files of `npm run bench:imports`, written line by line: none is ever held whole.
import { createWriteStream } from "node:fs";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { ImportKindName } from "../src/features/imports/schemas.ts";

interface Table {
  header: string;
  line(index: number, rows: number): string;
}

const serialOf = (index: number): string => `FS${String(index).padStart(8, "0")}`;

/** In the order in which a firm would bring them in: each builds on those before it. */
const TABLES = {
  customers: {
    header: "reference,name,email,phone,address",
    line: (index) =>
      `K-${index},Person ${index} Núñez,p${index}@x.example,07${index},` +
      `"${index} Kiln Lane, Northwick"`,
  },
  sites: {
    header: "reference,customer,address,town,postcode,country,lat,lon,time zone,supply,region",
    line: (index) =>
      `Q-${index},K-${index},${index} Larch Row,Northwick,NW0 4ZZ,GB,52.19,-1.71,` +
      "Europe/London,TN-S,uk",
  },
  units: {
    header: "model,serial,hardware,site,installed at",
    line: (index, rows) =>
      `CAIRN,${serialOf(index)},C2,Q-${index % Math.ceil(rows / 5)},2026-03-02`,
  },
  "firmware-levels": {
    header: "serial,level,read at",
    line: (index, rows) => {
      const month = 1 + Math.floor(index / (rows / 2));
      return `${serialOf(index % (rows / 2))},1.${index % 7}.0,2026-0${month}-02T09:30:00Z`;
    },
  },
} satisfies Partial<Record<ImportKindName, Table>>;

export type BenchKind = keyof typeof TABLES;
export const KINDS = Object.keys(TABLES) as BenchKind[];
export const headerOf = (kind: BenchKind): string => TABLES[kind].header;

function* blocks({ header, line }: Table, rows: number): Generator<string> {
  yield `${header}\r\n`;
  for (let first = 0; first < rows; first += 1000) {
    const length = Math.min(1000, rows - first);
    yield Array.from({ length }, (_, index) => `${line(first + index, rows)}\r\n`).join("");
  }
}

export const writeTable = (path: string, kind: BenchKind, rows: number): Promise<void> =>
  pipeline(Readable.from(blocks(TABLES[kind], rows)), createWriteStream(path, { mode: 0o644 }));
