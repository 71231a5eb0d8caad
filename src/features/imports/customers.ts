import { shortText } from "../../web/fields.ts";
import { NewCustomer } from "../customers/schemas.ts";
import { applyCustomers, judgeCustomers } from "./customers-store.ts";
import { type ImportKind, missing, readBySchema } from "./kind.ts";

/** An edit takes any part of what a new customer takes. */
const CustomerRow = NewCustomer.extend({ reference: shortText(40) }).partial();

export const customers: ImportKind = {
  fields: [
    {
      ...{ name: "reference", cell: "text" },
      words: [
        "customer reference",
        "customer number",
        "customer no",
        "account",
        "number",
        "ref",
      ].concat(["referencia", "número de cliente", "nº de cliente", "código de cliente", "código"]),
    },
    {
      ...{ name: "name", cell: "text", requirement: "new" },
      words: ["customer", "customer name", "full name", "nombre", "cliente", "nombre del cliente"],
    },
    {
      ...{ name: "email", cell: "text" },
      words: ["e-mail", "mail", "email address", "correo", "correo electrónico"],
    },
    {
      ...{ name: "phone", cell: "text" },
      words: ["telephone", "phone number", "mobile", "tel", "teléfono", "móvil"],
    },
    {
      ...{ name: "address", cell: "text" },
      words: ["postal address", "billing address", "dirección", "dirección postal"],
    },
    { ...{ name: "note", cell: "text" }, words: ["notes", "remarks", "nota", "notas"] },
    { ...{ name: "language", cell: "text" }, words: ["idioma", "lengua"] },
  ],
  open: async () => (values) => {
    const read = readBySchema(CustomerRow, values);
    if (!read.ok) return read;
    const { reference, name, email, phone, address } = read.value;
    if (reference !== undefined) {
      return { ok: true, fields: read.value, naturalKey: `reference ${reference}` };
    }
    if (name === undefined) return missing("name");
    const told = (email ?? phone ?? address ?? "").toLowerCase();
    const naturalKey = `known by ${JSON.stringify([name.toLowerCase(), told])}`;
    return { ok: true, fields: read.value, naturalKey };
  },
  judge: judgeCustomers,
  apply: applyCustomers,
};
