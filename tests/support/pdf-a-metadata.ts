// XMP of a PDF/A file (ISO 19005-2, 6.6, from memory): there, well-formed, and naming the standard.
import { content, isStream, type PdfFile } from "./pdf-file.ts";
import type { Bytes, Dict, Name } from "./pdf-objects.ts";

export function metadataFaults(file: PdfFile, catalog: Dict): string[] {
  const stream = file.get(catalog.Metadata);
  if (!isStream(stream)) return ["6.6.2.1: the catalog has no metadata"];
  const faults: string[] = [];
  const unless = (holds: boolean, fault: string) => void (holds || faults.push(fault));
  const { Type: type, Subtype: subtype, Filter: filter } = stream.dict;
  const isXml = [type, subtype].map((one) => (one as Name)?.text).join() === "Metadata,XML";
  unless(isXml, "6.6.2.1: the stream does not say that it is metadata");
  unless(filter === undefined, "6.6.2.1: the metadata cannot be read by a plain search");
  const xml = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(content(stream));
  const packet = /^<\?xpacket begin="\uFEFF?" id="W5M0MpCehiHzreSzNTczkc9d"\?>/.exec(xml)?.[0];
  unless(packet !== undefined, "6.6.2.1: the packet has no header, or one with old attributes");
  unless(/<\?xpacket end=["'][rw]["']\?>$/.test(xml), "6.6.2.1: the packet has no end");
  faults.push(...xmlFaults(xml));
  unless(stated(xml, "pdfaid:part") === "2", "6.6.4: the part is not 2");
  unless(stated(xml, "pdfaid:conformance") === "A", "6.6.4: the level is not A");
  unless(xml.includes('xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"'), "6.6.4: the namespace");
  const info = file.get(file.trailer.Info) as Dict;
  const said = (name: string): string => (file.get(info[name]) as Bytes).text;
  unless(listed(xml, "dc:title") === said("Title"), "6.6.3: two titles");
  unless(listed(xml, "dc:creator") === said("Author"), "6.6.3: two authors");
  unless(stated(xml, "pdf:Producer") === said("Producer"), "6.6.3: two producers");
  unless(stated(xml, "xmp:CreatorTool") === said("Creator"), "6.6.3: two creators");
  const made = stated(xml, "xmp:CreateDate").replaceAll(/[-:T]/g, "");
  unless(said("CreationDate") === `D:${made}`, "6.6.3: two dates");
  return faults;
}

const plain = (text: string): string =>
  text.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&amp;", "&");

const stated = (xml: string, name: string): string =>
  plain(new RegExp(`<${name}>([^<]*)</${name}>`).exec(xml)?.[1] ?? "");

const listed = (xml: string, name: string): string =>
  plain(new RegExp(`<${name}>(?:.|\n)*?<rdf:li[^>]*>([^<]*)</rdf:li>`).exec(xml)?.[1] ?? "");

const TAG = /^<(\/?)([\w:]+)((?:\s+[\w:]+\s*=\s*(?:"[^"<&]*"|'[^'<&]*'))*)\s*(\/?)>/;

/** Well-formed as far as elements, attributes, entities and characters go (XML 1.0). */
function xmlFaults(xml: string): string[] {
  const open: string[] = [];
  const declared = new Set(["xml", ...[...xml.matchAll(/xmlns:(\w+)=/g)].map(([, one]) => one)]);
  let rest = xml.replaceAll(/<\?[\s\S]*?\?>/g, "");
  while (rest !== "") {
    const text = /^[^<]+/.exec(rest)?.[0] ?? "";
    if (/&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-fA-F]+);)/.test(text)) {
      return [`6.6.2.1: a bare ampersand in ${text.trim()}`];
    }
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    if (/[\0-\x08\x0b\x0c\x0e-\x1f\uFFFE\uFFFF]/.test(text)) return ["6.6.2.1: a control sign"];
    rest = rest.slice(text.length);
    if (rest === "") break;
    const [tag, closing, name = "", , alone] = TAG.exec(rest) ?? [];
    if (tag === undefined) return [`6.6.2.1: no tag at ${rest.slice(0, 20)}`];
    if (!declared.has(name.split(":")[0])) return [`6.6.2.1: ${name} is not declared`];
    if (closing && open.pop() !== name) return [`6.6.2.1: ${name} ends what is not open`];
    if (!closing && !alone) open.push(name);
    rest = rest.slice(tag.length);
  }
  return open.length > 0 ? [`6.6.2.1: ${open.join()} has no end`] : [];
}
