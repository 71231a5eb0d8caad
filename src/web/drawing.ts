// Drawings are SVG text made by the domain: colours are presentation attributes, names are escaped,
// and nothing in them needs more than the pages' content security policy allows.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";

const SVG = "image/svg+xml";
const schema = z.string().describe("an SVG 1.1 document");

/** The response of a route that draws and does nothing else. */
export const DRAWING = { description: "The drawing, to scale", content: { [SVG]: { schema } } };

/** The response of a route that answers with figures, or with their drawing where asked. */
export const drawnOr = <Figures extends z.ZodType>(figures: Figures, description: string) => ({
  description,
  content: { "application/json": { schema: figures }, [SVG]: { schema } },
});

export const DRAWING_QUERY = z.strictObject({
  format: z
    .enum(["json", "svg"])
    .optional()
    .describe("svg answers with the drawing; without it the Accept header decides"),
});

export function wantsDrawing(
  request: FastifyRequest,
  { format }: z.infer<typeof DRAWING_QUERY>,
): boolean {
  if (format) return format === "svg";
  const weights = (request.headers.accept ?? "*/*").split(",").map(weightOf);
  const heaviest = (types: string[]) =>
    Math.max(0, ...weights.filter(({ type }) => types.includes(type)).map(({ weight }) => weight));
  return heaviest([SVG]) > heaviest(["application/json", "application/*", "*/*"]);
}

/** One range of an Accept header (RFC 9110 12.5.1): `image/svg+xml;q=0.8`. */
function weightOf(range: string): { type: string; weight: number } {
  const [type = "", ...parameters] = range.split(";").map((part) => part.trim().toLowerCase());
  const given = parameters.find((parameter) => parameter.startsWith("q="));
  const weight = given === undefined ? 1 : Number(given.slice(2));
  return { type, weight: Number.isFinite(weight) ? weight : 0 };
}

export function sendDrawing(reply: FastifyReply, svg: string): FastifyReply {
  return reply
    .type(`${SVG}; charset=utf-8`)
    .header("cache-control", "private, no-cache")
    .serializer((text: string) => text)
    .send(svg);
}
