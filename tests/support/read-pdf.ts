// PDFs read by programs that are not ours: PDF.js, and qpdf and poppler where a machine has them.
import { spawnSync } from "node:child_process";
import { readFile } from "node:fs/promises";
import type { Test } from "supertest";
import { extractText, getDocumentProxy } from "unpdf";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";

export interface Node {
  role: string;
  alt?: string;
  children: Node[];
}

export interface ReadPdf {
  pages: number;
  /** Without any space: where lines break says nothing; of signs that share a shape, one. */
  text: string;
  title: string;
  language: string;
  made: string;
  isMarked: boolean;
  widthPt: number;
  /** What stands directly under the root, page by page. */
  roots: string[];
  /** Every element of every page, in order. */
  nodes: Node[];
}

export const squeezed = (text: string): string => text.normalize("NFKC").replaceAll(/\s+/g, "");

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const pdf = await getDocumentProxy(new Uint8Array(bytes));
  const { text } = await extractText(pdf, { mergePages: true });
  const { info } = (await pdf.getMetadata()) as unknown as { info: Record<string, string> };
  const roots: string[] = [];
  const nodes: Node[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const tree = (await (await pdf.getPage(number)).getStructTree()) as Node | null;
    for (const child of tree?.children ?? []) roots.push(child.role);
    nodes.push(...(tree ? below(tree) : []));
  }
  const [, , widthPt = 0] = (await pdf.getPage(1)).view;
  return {
    ...{ pages: pdf.numPages, text: squeezed(text), roots, nodes, widthPt },
    ...{ title: info.Title ?? "", language: info.Language ?? "", made: info.CreationDate ?? "" },
    isMarked: ((await pdf.getMarkInfo()) as { Marked?: boolean } | null)?.Marked === true,
  };
}

/** Each page's tree names a table's rows on other pages too, with nothing in them. */
const below = (node: Node): Node[] =>
  (node.children ?? []).flatMap((child) =>
    child.role && holds(child) ? [child, ...below(child)] : [],
  );

const holds = ({ role, children }: Node): boolean => !role || (children ?? []).some(holds);

export const isInstalled = (program: string): boolean =>
  spawnSync("sh", ["-c", `command -v ${program}`]).status === 0;

/** What the program printed, both ways. */
export function run(program: string, ...options: string[]): { status: number | null; out: string } {
  const { status, stdout, stderr } = spawnSync(program, options, { encoding: "utf8" });
  return { status, out: `${stdout}${stderr}` };
}

/** Texts of the QR codes in a picture. */
export async function squaresIn(path: string): Promise<string[]> {
  const wasm = new URL(
    "../../node_modules/zxing-wasm/dist/reader/zxing_reader.wasm",
    import.meta.url,
  );
  const wasmBinary = new Uint8Array(await readFile(wasm)).buffer;
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true });
  const found = await readBarcodes(new Uint8Array(await readFile(path)), { formats: ["QRCode"] });
  return found.map(({ text }) => text);
}

/** The file that a request answers with. */
export async function fileOf(request: Test): Promise<Buffer> {
  const reply = await request.buffer(true).parse((response, done) => {
    const chunks: Buffer[] = [];
    response.on("data", (chunk: Buffer) => chunks.push(chunk));
    response.on("end", () => done(null, Buffer.concat(chunks)));
  });
  if (reply.status !== 200) throw new Error(`no file: ${reply.status} ${reply.body}`);
  return reply.body as Buffer;
}
