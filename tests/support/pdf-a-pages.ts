// What a page draws, operator by operator (ISO 32000-1, Annex A).
import { content, isDict, isStream, type PdfFile } from "./pdf-file.ts";
import { Bytes, type Dict, Name, Reader, Ref, type Value, Word } from "./pdf-objects.ts";

export interface Marks {
  /** Codes shown, by the number of the font's object. */
  used: Map<number, Set<number>>;
  /** Marked-content ids by the number of the page's object. */
  seen: Map<number, Set<number>>;
}

export function pageFaults(file: PdfFile, catalog: Dict, marks: Marks): string[] {
  const pages = file.get(catalog.Pages) as Dict;
  return (pages.Kids as Ref[]).flatMap((kid) => {
    const page = file.get(kid) as Dict;
    const [, , width, height] = (page.MediaBox ?? pages.MediaBox) as number[];
    const sized = [width, height].every((side = 0) => side >= 3 && side <= 14400);
    const stream = file.get(page.Contents);
    if (!isStream(stream)) return ["6.2.2: a page without content"];
    return [
      ...(sized ? [] : ["6.1.13: the size of a page"]),
      ...("Group" in page ? ["6.2.10: a transparency group, which the papers do not have"] : []),
      ...(typeof page.StructParents === "number" ? [] : ["6.7.3: a page outside the tree"]),
      ...new Walk(file, page, kid.number, marks).faults(content(stream)),
    ];
  });
}

const PAINT = /^(?:Tj|TJ|'|"|f|F|f\*|S|s|B|B\*|b|b\*|sh|Do)$/;
const KNOWN = new Set(
  (
    "q Q cm w J j M d ri i gs m l c v y h re W W* n BT ET Tc Tw Tz TL Tf Tr Ts Td TD Tm T* " +
    "CS cs SC SCN sc scn G g RG rg BMC BDC EMC MP DP"
  ).split(" "),
);
const NESTING_MOST = 28;

class Walk {
  readonly #file: PdfFile;
  readonly #resources: Dict;
  readonly #page: number;
  readonly #marks: Marks;
  readonly #found = new Set<string>();
  readonly #open: ("content" | "artifact" | "plain")[] = [];
  #saved = 0;
  #font: number | undefined;

  constructor(file: PdfFile, page: Dict, number: number, marks: Marks) {
    this.#file = file;
    this.#resources = file.get(page.Resources) as Dict;
    this.#page = number;
    this.#marks = marks;
    marks.seen.set(number, new Set());
  }

  faults(bytes: Buffer): string[] {
    const reader = new Reader(bytes);
    let operands: Value[] = [];
    for (let value = reader.next(); value !== undefined; value = reader.next()) {
      if (!(value instanceof Word)) operands.push(value);
      else {
        this.#take(value.text, operands);
        operands = [];
      }
    }
    this.#unless(this.#open.length === 0, "6.2.2: marked content has no end");
    this.#unless(this.#saved === 0, "6.2.2: q and Q do not match");
    return [...this.#found];
  }

  #unless(holds: boolean, fault: string): void {
    if (!holds) this.#found.add(fault);
  }

  #take(operator: string, operands: Value[]): void {
    this.#unless(PAINT.test(operator) || KNOWN.has(operator), `6.2.2: the operator ${operator}`);
    if (operator === "q" || operator === "Q") this.#saved += operator === "q" ? 1 : -1;
    this.#unless(this.#saved <= NESTING_MOST, "6.1.13: q is nested too deeply");
    if (/^B[DM]C$/.test(operator)) this.#begin(operands);
    if (operator === "EMC") this.#unless(this.#open.pop() !== undefined, "6.2.2: EMC too many");
    if (PAINT.test(operator)) {
      const isTold = this.#open.some((kind) => kind !== "plain");
      this.#unless(isTold, "6.7.3: something is drawn that is neither content nor an artifact");
    }
    if (operator === "Tf") this.#font = this.#named("Font", operands[0]);
    if (operator === "Do") this.#named("XObject", operands[0]);
    if (operator === "gs")
      this.#found.add("6.2.10: a graphics state, which the papers do not have");
    if (/^cs$/i.test(operator)) this.#colours(operands[0]);
    if (/^(?:Tj|TJ)$/.test(operator)) this.#show(operands.flat(1) as Value[]);
  }

  #begin([tag, properties]: Value[]): void {
    const isArtifact = tag instanceof Name && tag.text === "Artifact";
    const id = isDict(properties) ? properties.MCID : undefined;
    const seen = this.#marks.seen.get(this.#page);
    if (typeof id === "number") {
      this.#unless(!seen?.has(id), "6.7.3: a marked-content id stands twice on a page");
      seen?.add(id);
    }
    this.#open.push(isArtifact ? "artifact" : typeof id === "number" ? "content" : "plain");
  }

  #named(kind: string, name: Value | undefined): number | undefined {
    const known = this.#file.get(this.#resources[kind]) as Dict | undefined;
    const found = name instanceof Name ? known?.[name.text] : undefined;
    this.#unless(found instanceof Ref, `6.2.2: a ${kind} that the page's resources lack`);
    return found instanceof Ref ? found.number : undefined;
  }

  #colours(space: Value | undefined): void {
    const name = space instanceof Name ? space.text : "";
    this.#unless(/^Device(?:RGB|Gray)$/.test(name), `6.2.4.3: colours of ${name}`);
  }

  #show(parts: Value[]): void {
    const used = this.#marks.used.get(this.#font ?? 0) ?? new Set<number>();
    this.#marks.used.set(this.#font ?? 0, used);
    for (const part of parts) {
      if (!(part instanceof Bytes)) continue;
      for (let at = 0; at < part.bytes.length; at += 2) used.add(part.bytes.readUInt16BE(at));
    }
  }
}
