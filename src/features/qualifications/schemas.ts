import { z } from "zod";
import { plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { JOB_KINDS } from "../jobs/schemas.ts";

const name = shortText(80)
  .describe("as the firm calls it")
  .meta({ examples: ["DC work up to 1000 V"] });
const warnDays = z
  .number()
  .int()
  .min(0)
  .max(366)
  .describe("from so many days before its end it is told that one runs out")
  .meta({ examples: [60] });

export const NewQualificationKind = z.strictObject({ name, warnDays: warnDays.default(60) });
export const QualificationKindEdit = z
  .strictObject({ name, warnDays, archived: z.boolean() })
  .partial();
export type QualificationKindEdit = z.infer<typeof QualificationKindEdit>;

export const QualificationKind = z
  .object({
    id: z.guid(),
    name: z.string(),
    warnDays: z.number().int(),
    archived: z.boolean().describe("no longer given to people; what is held stays"),
    version: z.number().int(),
  })
  .meta({ id: "QualificationKind" });
export const QualificationKindPage = pageOf(QualificationKind);
export const QualificationKindQuery = z.strictObject({
  ...PAGE_QUERY,
  archived: z.stringbool().default(false),
});

const validFrom = plainDate().describe("the first day on which it counts");
const validTo = plainDate()
  .nullable()
  .describe("the last day on which it counts, null where it does not run out")
  .meta({ examples: ["2027-11-30"] });
const number = shortText(80)
  .nullable()
  .describe("of the certificate or card")
  .meta({ examples: ["Q-20417"] });
const issuedBy = shortText(160)
  .nullable()
  .meta({ examples: ["Regional training board"] });

const inOrder = ({
  validFrom: from,
  validTo: to,
}: {
  validFrom?: string;
  validTo?: string | null;
}) => from === undefined || to === undefined || to === null || from <= to;
const ORDER = { path: ["validTo"], error: "must not lie before validFrom" };

export const NewQualification = z
  .strictObject({
    personId: z.guid(),
    kindId: z.guid(),
    validFrom,
    validTo: validTo.default(null),
    number: number.default(null),
    issuedBy: issuedBy.default(null),
  })
  .refine(inOrder, ORDER);
export type NewQualification = z.infer<typeof NewQualification>;

export const QualificationEdit = z
  .strictObject({ validFrom, validTo, number, issuedBy })
  .partial()
  .refine(inOrder, ORDER);
export type QualificationEdit = z.infer<typeof QualificationEdit>;

export const Qualification = z
  .object({
    id: z.guid(),
    person: z.object({ id: z.guid(), name: z.string() }),
    kind: z.object({ id: z.guid(), name: z.string() }),
    number: z.string().nullable(),
    issuedBy: z.string().nullable(),
    validFrom: z.iso.date(),
    validTo: z.iso.date().nullable(),
    daysLeft: z
      .number()
      .int()
      .nullable()
      .describe("days to its last day, below 0 when it is over, null when it does not run out"),
    runsOut: z.boolean().describe("within the kind's warning days, or over"),
    version: z.number().int(),
  })
  .meta({ id: "Qualification" });
export const QualificationPage = pageOf(Qualification);
export const QualificationQuery = z.strictObject({
  ...PAGE_QUERY,
  personId: z.guid().optional(),
  kindId: z.guid().optional(),
  endsBefore: plainDate().optional().describe("those whose last day lies before this day"),
});

const askedOf = z
  .enum(["everyone", "someone"])
  .describe("everyone in the crew must hold it, or at least one of them")
  .meta({ examples: ["someone"] });

export const NewRequirement = z.strictObject({
  jobKind: z.enum(JOB_KINDS),
  kindId: z.guid().describe("of the qualification"),
  askedOf: askedOf.default("everyone"),
});
export type NewRequirement = z.infer<typeof NewRequirement>;

export const QualificationRequirement = z
  .object({
    id: z.guid(),
    jobKind: z.enum(JOB_KINDS),
    kind: z.object({ id: z.guid(), name: z.string() }),
    askedOf: z.enum(["everyone", "someone"]),
  })
  .meta({ id: "QualificationRequirement" });
export const QualificationRequirementPage = pageOf(QualificationRequirement);
export const QualificationRequirementQuery = z.strictObject({
  ...PAGE_QUERY,
  jobKind: z.enum(JOB_KINDS).optional(),
});
