// Everyone here is invented, and so is the firm. Addresses end in .example (RFC 2606), which nobody
// owns.
import type { Role } from "../../web/roles.ts";

export const FIRM = {
  name: "Copperbeck Home Storage",
  timeZone: "Europe/London",
  unitSystem: "metric",
} as const;

export interface DemoPerson {
  key: string;
  name: string;
  email: string;
  roles: Role[];
}

export const PEOPLE: readonly DemoPerson[] = [
  person("morwenna", "Morwenna Tallack", ["owner", "installer"]),
  person("ines", "Ines Bramwell", ["office"]),
  person("orla", "Orla Fennimore", ["manager"]),
  person("dev", "Dev Kalloor", ["installer"]),
  person("tamsin", "Tamsin Orchard", ["installer"]),
  person("bram", "Bram Ostler", ["installer"]),
  person("etienne", "Étienne Varosse", ["installer"]),
  person("noor", "Noor Delacombe", ["installer"]),
  {
    key: "casimir",
    name: "Casimir Holtby",
    email: "casimir@quietledger.example",
    roles: ["auditor"],
  },
];

function person(key: string, name: string, roles: Role[]): DemoPerson {
  return { key, name, email: `${key}@copperbeck.example`, roles };
}

/** Crews with the one who answers for their readings first. */
export const CREWS = {
  heath: { name: "Heath crew", people: ["dev", "morwenna"] },
  harbour: { name: "Harbour crew", people: ["tamsin", "bram"] },
  cotentin: { name: "Cotentin crew", people: ["etienne", "noor"] },
} as const;
export type CrewKey = keyof typeof CREWS;
