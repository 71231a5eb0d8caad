// Requirement: what a tablet and the server say to each other. A tablet keeps facts as operations
// in an unbroken row of its own (deviceSeq without gaps, each naming the hash of the one before);
// the server stores each once, together with its effects, and never drops one: what cannot take
// effect is held for the office with its reason.
import { z } from "zod";
import { UNIT_SYSTEMS } from "../../domain/quantities/display-unit.ts";
import { NewAnswer, Verdict } from "../answers/schemas.ts";
import { MessagePayload, PacketMessage, SnagPayload } from "./note-schemas.ts";

export const OPS_MOST = 100;
const time = () => z.iso.datetime({ offset: true });
const sha256 = () => z.string().regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in lower-case hex");
const text = (most: number) => z.string().trim().min(1).max(most);

const AnswerPayload = z
  .strictObject({
    kind: z.literal("answer"),
    /** Its id is the operation's, its photos are the operation's. */
    answer: NewAnswer.omit({ id: true, photos: true }),
  })
  .describe("an answer to an item; the operation's id is the answer's id");

const StageTimePayload = z
  .strictObject({
    kind: z.literal("stage-time"),
    stageId: text(48),
    startedAt: time(),
    endedAt: time(),
    activeMs: z.number().int().min(0).max(86_400_000).describe("time in which work was seen"),
  })
  .describe("how long a stage took");

const CloseOutPayload = z
  .strictObject({
    kind: z.literal("close-out"),
    seenOpen: z.boolean().describe("whether the gate was open as the tablet saw it"),
    seenBlockers: z.number().int().min(0).max(10_000),
  })
  .describe("the crew asks to close the job; the server decides");

export const OpPayload = z.discriminatedUnion("kind", [
  AnswerPayload,
  StageTimePayload,
  SnagPayload,
  MessagePayload,
  CloseOutPayload,
]);
export type OpPayload = z.infer<typeof OpPayload>;

export const TabletOp = z
  .strictObject({
    opId: z.guid().describe("UUIDv7 made on the tablet"),
    deviceId: z.guid().describe("made by the tablet when its store was laid out"),
    deviceSeq: z.number().int().min(1).max(2_000_000_000).describe("from 1, without gaps"),
    prevHash: sha256().describe("SHA-256 of the operation before, in RFC 8785 form; zeros first"),
    jobId: z.guid(),
    personId: z.guid().describe("who was signed in on the tablet when it was kept"),
    jobVersionSeen: z.number().int().min(0).describe("version of the job in the packet shown"),
    orderSeen: z
      .number()
      .int()
      .min(0)
      .describe("receipt order of the last answer of the server's that the tablet knew"),
    wallClock: time(),
    monotonicMs: z.number().min(0).describe("of the page's own clock, which nobody can set"),
    payload: OpPayload,
    photoSha256: z.array(sha256()).max(20),
  })
  .meta({ id: "TabletOp" });
export type TabletOp = z.infer<typeof TabletOp>;

export const OpBatch = z.strictObject({
  ops: z.array(TabletOp).min(1).max(OPS_MOST),
  firmId: z
    .guid()
    .optional()
    .describe("whose facts they are: nothing is taken when someone of another firm is signed in"),
});

/**
 * stored: kept with its effect. held: kept, without effect until the office decides. early: not
 * kept, one before it is missing. refused: not kept as an operation, its id or place is another's;
 * its body is in quarantine.
 */
export const OP_OUTCOMES = ["stored", "held", "early", "refused"] as const;

export const OpResult = z
  .object({
    opId: z.guid(),
    deviceSeq: z.number().int(),
    outcome: z.enum(OP_OUTCOMES),
    repeated: z.boolean().describe("it had been kept before; this is the reply of then"),
    code: z.string().optional().describe("why it is held or refused"),
    sentence: z.string().optional(),
    verdict: Verdict.optional(),
    receiptOrder: z.number().int().optional().describe("place of its answer in the job's record"),
    differs: z
      .boolean()
      .optional()
      .describe("another answer to the same came in meanwhile; both are kept"),
    closed: z.boolean().optional().describe("close-out: whether the job is closed now"),
    blockers: z.number().int().optional().describe("close-out: what still stands in the way"),
  })
  .meta({ id: "OpResult" });
export type OpResult = z.infer<typeof OpResult>;

export const OpResults = z.object({
  results: z.array(OpResult),
  storedThrough: z.number().int().describe("the device's last operation that the server has"),
});
export type OpResults = z.infer<typeof OpResults>;

const Facts = z.record(z.string(), z.unknown());

export const Packet = z
  .object({
    schema: z.literal("packet/1"),
    version: sha256().describe("of everything in it but generatedAt; the ETag"),
    generatedAt: time(),
    ruleVersion: z.string().describe("rules by which the server judges"),
    unitSystem: z.enum(UNIT_SYSTEMS).describe("the firm's: what a reading is typed in at first"),
    job: z.object({
      id: z.guid(),
      reference: z.string(),
      kind: z.string(),
      title: z.string(),
      state: z.enum(["open", "closed", "cancelled"]),
      version: z.number().int(),
    }),
    site: z.object({
      reference: z.string(),
      name: z.string().nullable(),
      customerName: z.string(),
      customerPhone: z.string().nullable(),
      addressLine: z.string(),
      locality: z.string(),
      postcode: z.string(),
      country: z.string(),
      latitude: z.number(),
      longitude: z.number(),
      timeZone: z.string(),
      supply: z.string(),
      region: z.string(),
    }),
    visits: z.array(
      z.object({
        id: z.guid(),
        startsAt: time(),
        endsAt: time(),
        crew: z.string(),
        note: z.string().nullable(),
      }),
    ),
    plan: z.object({
      versionId: z.guid(),
      code: z.string(),
      number: z.number().int(),
      sha256: sha256(),
      document: Facts.describe("a published plan/1 document"),
    }),
    units: z.array(Facts).describe("UnitFacts of src/domain/plan/context.ts, with modelName"),
    instruments: z
      .array(Facts)
      .describe("InstrumentFacts, with name, and booked: whether a visit has it"),
    concessions: z.array(Facts).describe("ConcessionFacts"),
    answers: z.array(Facts).describe("Answer of src/domain/acceptance/answer.ts, all of the job"),
    photosHeld: z.array(sha256()),
    messages: z.array(PacketMessage).describe("the last of the job's thread, oldest first"),
    lastOrder: z.number().int(),
    switchMaps: Facts.describe("switch-map/1 by model code, where a model has one"),
  })
  .meta({ id: "Packet" });
export type Packet = z.infer<typeof Packet>;

export const TabletVisit = z
  .object({
    visitId: z.guid(),
    jobId: z.guid(),
    reference: z.string(),
    title: z.string(),
    place: z.string().describe("street and town"),
    customerName: z.string(),
    startsAt: time(),
    endsAt: time(),
    timeZone: z.string(),
    jobState: z.enum(["open", "closed", "cancelled"]),
    packetVersion: sha256(),
  })
  .meta({ id: "TabletVisit" });
export type TabletVisit = z.infer<typeof TabletVisit>;

export const TabletDay = z.object({
  serverTime: time(),
  items: z
    .array(TabletVisit)
    .max(100)
    .describe("of today and tomorrow at each site, earliest first"),
});
export type TabletDay = z.infer<typeof TabletDay>;
