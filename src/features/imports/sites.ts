import { shortText } from "../../web/fields.ts";
import { NewSite } from "../sites/schemas.ts";
import { type ImportKind, missing, readBySchema } from "./kind.ts";
import { applySites, judgeSites } from "./sites-store.ts";

/** The customer is told by the reference, which people know, instead of an id. */
const SiteRow = NewSite.omit({ customerId: true })
  .extend({ reference: shortText(40), customer: shortText(40) })
  .partial();

export const sites: ImportKind = {
  fields: [
    {
      ...{ name: "reference", cell: "text" },
      words: [
        "site reference",
        "site number",
        "site no",
        "ref",
        "referencia",
        "número de sitio",
      ].concat(["referencia del sitio", "código"]),
    },
    {
      ...{ name: "customer", cell: "text", requirement: "new" },
      words: ["customer reference", "customer number", "cliente", "número de cliente"].concat([
        "referencia del cliente",
      ]),
    },
    { ...{ name: "name", cell: "text" }, words: ["site name", "nombre", "nombre del sitio"] },
    {
      ...{ name: "addressLine", cell: "text", requirement: "new" },
      words: ["address", "street", "address line 1", "dirección", "calle"],
    },
    {
      ...{ name: "locality", cell: "text", requirement: "new" },
      words: ["town", "city", "localidad", "población", "ciudad", "municipio"],
    },
    {
      ...{ name: "postcode", cell: "text", requirement: "new" },
      words: ["postal code", "zip", "zip code", "código postal", "cp"],
    },
    { ...{ name: "country", cell: "text", requirement: "new" }, words: ["país", "country code"] },
    { ...{ name: "latitude", cell: "number", requirement: "new" }, words: ["lat", "latitud"] },
    {
      ...{ name: "longitude", cell: "number", requirement: "new" },
      words: ["lon", "lng", "long", "longitud"],
    },
    {
      ...{ name: "timeZone", cell: "text", requirement: "new" },
      words: ["zone", "zona horaria", "huso horario"],
    },
    {
      ...{ name: "supply", cell: "text", requirement: "new" },
      words: [
        "earthing",
        "earthing system",
        "suministro",
        "esquema de tierra",
        "régimen de neutro",
      ],
    },
    { ...{ name: "region", cell: "text", requirement: "new" }, words: ["rules", "región"] },
  ],
  open: async () => (values) => {
    const read = readBySchema(SiteRow, values);
    if (!read.ok) return read;
    const { reference, customer, addressLine, postcode, name } = read.value;
    if (reference !== undefined) {
      return { ok: true, fields: read.value, naturalKey: `reference ${reference}` };
    }
    if (customer === undefined) return missing("customer");
    if (addressLine === undefined) return missing("addressLine");
    if (postcode === undefined) return missing("postcode");
    const place = [customer, addressLine.toLowerCase(), postcode, name?.toLowerCase() ?? ""];
    return { ok: true, fields: read.value, naturalKey: `known by ${JSON.stringify(place)}` };
  },
  judge: judgeSites,
  apply: applySites,
};
