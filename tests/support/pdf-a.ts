// What ISO 19005-2 (PDF/A-2) asks of a file at level A, clause by clause, from memory: as far as
// the raw objects show it. It is no validator: what the papers do not use at all (forms,
// annotations, transparency, optional content, attached files) is refused here altogether.
import { fontFaults } from "./pdf-a-fonts.ts";
import { metadataFaults } from "./pdf-a-metadata.ts";
import { type Marks, pageFaults } from "./pdf-a-pages.ts";
import { content, isDict, isStream, type PdfFile, readObjects } from "./pdf-file.ts";
import { Bytes, type Dict, Name, type Ref, type Value } from "./pdf-objects.ts";

/** One sentence a fault, the clause first. */
export function pdfAFaults(bytes: Buffer): string[] {
  const file = readObjects(bytes);
  const catalog = file.get(file.trailer.Root) as Dict;
  const marks: Marks = { used: new Map(), seen: new Map() };
  return [
    ...frameFaults(file),
    ...intentFaults(file, catalog),
    ...metadataFaults(file, catalog),
    ...[...file.objects.values()].flatMap((value) => objectFaults(value)),
    ...pageFaults(file, catalog, marks),
    ...fontFaults(file, marks.used),
    ...treeFaults(file, catalog, marks),
  ];
}

const unless = (holds: boolean, fault: string): string[] => (holds ? [] : [fault]);

function frameFaults({ bytes, trailer }: PdfFile): string[] {
  const [id, same] = (trailer.ID ?? []) as Value[];
  const isId = id instanceof Bytes && same instanceof Bytes && id.bytes.length >= 16;
  const head = bytes.subarray(0, 15).toString("latin1");
  return [
    ...unless(/^%PDF-1\.[0-7]\r?\n%[\x80-\xff]{4,}/.test(head), "6.1.2: the header"),
    ...unless(isId, "6.1.3: the trailer has no ID"),
    ...unless(!("Encrypt" in trailer), "6.1.3: it is encrypted"),
  ];
}

function intentFaults(file: PdfFile, catalog: Dict): string[] {
  const intents = (file.get(catalog.OutputIntents) ?? []) as Value[];
  const intent = file.get(intents[0]);
  if (intents.length !== 1 || !isDict(intent)) return ["6.2.3: not one output intent"];
  const profile = file.get(intent.DestOutputProfile);
  if (!isStream(profile)) return ["6.2.3: the output intent holds no profile"];
  const icc = content(profile);
  // ISO 15076-1, 7.2: size, class, colour space and signature of the profile's header.
  const [kind, space, mark] = [12, 16, 36].map((at) => icc.toString("latin1", at, at + 4));
  return [
    ...unless((intent.S as Name).text === "GTS_PDFA1", "6.2.3: the intent is of another kind"),
    ...unless(intent.OutputConditionIdentifier instanceof Bytes, "6.2.3: the intent has no name"),
    ...unless(icc.readUInt32BE(0) === icc.length, "6.2.3: the profile is cut off"),
    ...unless(mark === "acsp" && /mntr|prtr|scnr/.test(kind ?? ""), "6.2.3: it is no profile"),
    ...unless(space === "RGB " && profile.dict.N === 3, "6.2.4.3: the profile is not of RGB"),
    ...unless((icc[8] ?? 9) <= 4, "6.2.3: the profile is of a later version than 4"),
  ];
}

const FORBIDDEN: Readonly<Record<string, string>> = {
  AA: "6.5.2: additional actions",
  AcroForm: "6.4.1: a form, which the papers do not have",
  AF: "6.8: an attached file",
  Alternates: "6.2.8: an alternate image",
  AlternatePresentations: "6.10: an alternate presentation",
  Annots: "6.3: an annotation, which the papers do not have",
  EmbeddedFiles: "6.8: an embedded file",
  F: "6.1.7.1: a stream from another file",
  FFilter: "6.1.7.1: a stream from another file",
  HTP: "6.2.5: a halftone phase",
  JavaScript: "6.5.1: a script",
  JS: "6.5.1: a script",
  OCProperties: "6.9: optional content",
  OpenAction: "6.5: an action on opening",
  OPI: "6.2.8: OPI",
  PresSteps: "6.10: presentation steps",
  PS: "6.2.9: PostScript",
  Ref: "6.2.9: a reference to another file's page",
  Requirements: "6.11: requirements",
  SMask: "6.2.10: transparency, which the papers do not have",
  TR: "6.2.5: a transfer function",
  XFA: "6.4.2: XFA",
};
const FILTERS = ["FlateDecode", "DCTDecode"];

function objectFaults(value: Value | undefined): string[] {
  if (value instanceof Name) return unless(value.text.length <= 127, "6.1.13: a name is too long");
  if (value instanceof Bytes) return unless(value.bytes.length <= 32767, "6.1.13: a long string");
  if (typeof value === "number") return unless(Math.abs(value) < 2 ** 31, "6.1.13: a number");
  if (Array.isArray(value)) return value.flatMap(objectFaults);
  if (isStream(value)) return [...streamFaults(value.dict), ...objectFaults(value.dict)];
  if (!isDict(value)) return [];
  const bad = Object.keys(value).flatMap((key) => FORBIDDEN[key] ?? []);
  return [...bad, ...Object.values(value).flatMap(objectFaults)];
}

function streamFaults({ Filter: filter, Subtype: subtype, ...dict }: Dict): string[] {
  const isImage = subtype instanceof Name && subtype.text === "Image";
  const isKnown = filter === undefined || (filter instanceof Name && FILTERS.includes(filter.text));
  const isRgb =
    !isImage || (dict.ColorSpace instanceof Name && dict.ColorSpace.text !== "DeviceCMYK");
  return [
    ...unless(isKnown, "6.1.7.2: a filter other than those the papers need"),
    ...unless(dict.Interpolate !== true, "6.2.8: an image is interpolated"),
    ...unless(isRgb, "6.2.4.3: an image in other colours than the profile's"),
  ];
}

/** Types of ISO 32000-1, 14.8.4, that need no role map. */
const ROLES =
  /^(?:Document|Sect|Caption|H[1-6]?|P|L|LI|Lbl|LBody|Table|TR|TH|TD|THead|TBody|Span|Figure)$/;

function treeFaults(file: PdfFile, catalog: Dict, marks: Marks): string[] {
  const faults: string[] = [];
  const mark = file.get(catalog.MarkInfo);
  const root = file.get(catalog.StructTreeRoot);
  if (!isDict(mark) || mark.Marked !== true) faults.push("6.7.2: it is not marked as tagged");
  if (!(catalog.Lang instanceof Bytes) || !/^(?:en|es)$/.test(catalog.Lang.text)) {
    faults.push("6.7.4: the catalog names no language");
  }
  if (!isDict(root)) return [...faults, "6.7.3: there is no structure tree"];
  const told = new Set<string>();
  const walk = (value: Value | undefined, page: Value | undefined): void => {
    const node = file.get(value);
    if (typeof node === "number") told.add(`${(page as Ref).number} ${node}`);
    if (!isDict(node)) return;
    const own = node.Pg ?? page;
    if (typeof node.MCID === "number") told.add(`${(own as Ref).number} ${node.MCID}`);
    const role = node.S instanceof Name ? node.S.text : undefined;
    if (role !== undefined && !ROLES.test(role)) faults.push(`6.7.3.4: the type ${role}`);
    if (role === "Figure" && !((node.Alt as Bytes)?.text ?? "").trim()) {
      faults.push("6.7.7: a figure without a description");
    }
    const kids = Array.isArray(node.K) ? node.K : [node.K];
    for (const kid of kids) walk(kid, own);
  };
  walk(catalog.StructTreeRoot, undefined);
  const drawn = [...marks.seen].flatMap(([page, ids]) => [...ids].map((id) => `${page} ${id}`));
  for (const place of drawn) if (!told.has(place)) faults.push(`6.7.3: ${place} is in no element`);
  if (told.size > drawn.length) faults.push("6.7.3: an element has content that is not drawn");
  return faults;
}
