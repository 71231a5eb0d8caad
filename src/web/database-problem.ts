// What the database refuses by itself comes back as a sentence, not as a failure of ours. Features
// check first and say more; this is the net under a race.
import { Problem, type ProblemCode } from "../errors.ts";

const CONSTRAINTS: Record<string, [ProblemCode, string]> = {
  visit_booking_no_overlap: ["double-booked", "Crew, person or instrument is already booked then."],
  visit_booking_absent: [
    "person-absent",
    "Somebody of the crew is away then. Move the visit first, or leave them out of the crew.",
  ],
  absence_over_visit: ["double-booked", "The person is booked for a visit then. Move that first."],
  absence_no_overlap: ["conflict", "The person is entered as away then already."],
  unit_live_serial: [
    "serial-live-elsewhere",
    "A unit with this serial number is installed already.",
  ],
  unit_live_at_one_site: ["serial-live-elsewhere", "The unit is installed at another site."],
  unit_bank_at_its_site: ["conflict", "A pack's bank must be at the site of the pack."],
  unit_bank_place: ["conflict", "Another pack has this place in the bank."],
  plan_version_frozen: [
    "conflict",
    "A published plan version does not change; make a new version.",
  ],
  job_open: ["job-not-open", "The job is not open."],
  job_closes_only_proven: [
    "conflict",
    "Something changed while the job was being closed; try again.",
  ],
  concession_by_another: [
    "conflict",
    "Whoever took the reading cannot grant its concession; another manager can.",
  ],
  concession_by_manager: ["not-allowed", "A concession is granted by a manager."],
};

interface DatabaseFault {
  code: string;
  constraint?: string;
  message: string;
}

/** What the driver says without a code: no connection came free in time, or one broke. */
const NOT_ANSWERING = [
  "timeout exceeded when trying to connect",
  "Connection terminated",
  "connection error and is not queryable",
  "Query read timeout",
];

export function databaseProblem(error: unknown): Problem | undefined {
  if (error instanceof Error && NOT_ANSWERING.some((words) => error.message.includes(words))) {
    return notAnswering();
  }
  const fault = faultOf(error);
  if (!fault) return undefined;
  const name = Object.keys(CONSTRAINTS).find(
    (constraint) => fault.constraint === constraint || fault.message.includes(constraint),
  );
  const known = name ? CONSTRAINTS[name] : undefined;
  if (known) return new Problem(known[0], known[1]);
  if (fault.code === "23505" || fault.code === "P2002") {
    return new Problem(
      "conflict",
      "Something with the same name, serial or reference is there already.",
    );
  }
  if (fault.code === "23503" || fault.code === "P2003") {
    return new Problem("not-found", "Something that this refers to does not exist in your firm.");
  }
  if (fault.code === "22021" || fault.code === "22P05") {
    return new Problem(
      "invalid-input",
      "A text holds the character U+0000, which cannot be stored.",
    );
  }
  if (["22003", "22007", "22008"].includes(fault.code)) {
    return new Problem("invalid-input", "A number or a time lies outside what can be stored.");
  }
  if (fault.code === "40001" || fault.code === "40P01" || fault.code === "P2034") {
    return new Problem("busy", "Two changes met; send the same request again.", { retryAfterS: 1 });
  }
  return AWAY.includes(fault.code) ? notAnswering() : undefined;
}

/** Pool or server out of connections, going down, stopped half-way, or not there. */
const AWAY = [
  ...["P2024", "P2028", "53300", "57P01", "57P02", "57P03", "57014", "25P03"],
  ...["ECONNREFUSED", "ECONNRESET", "EPIPE"],
];

const notAnswering = (): Problem =>
  new Problem("busy", "The database is not answering in time.", { retryAfterS: 5 });

/** pg's own errors, or the same wrapped by Prisma and its adapter. */
function faultOf(error: unknown): DatabaseFault | undefined {
  if (!(error instanceof Error)) return undefined;
  const fault = error as Error & {
    code?: unknown;
    constraint?: unknown;
    meta?: { driverAdapterError?: { cause?: Record<string, unknown> } };
    cause?: { originalCode?: unknown; originalMessage?: unknown };
  };
  const cause = fault.meta?.driverAdapterError?.cause ?? fault.cause;
  const code = cause?.originalCode ?? fault.code;
  if (typeof code !== "string") return undefined;
  return {
    code,
    message: `${fault.message} ${cause ? JSON.stringify(cause) : ""}`,
    ...(typeof fault.constraint === "string" ? { constraint: fault.constraint } : {}),
  };
}
