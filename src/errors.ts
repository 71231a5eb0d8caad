/**
 * Every problem the service answers with: RFC 9457 type, HTTP status, what it means and the way
 * out.
 */
export const PROBLEMS = {
  "invalid-input": {
    status: 422,
    title: "The input cannot be used",
    wayOut:
      "Each entry of `errors` points at a field and says what is wrong with it. Mend those and send again.",
  },
  "unreadable-body": {
    status: 400,
    title: "The body cannot be read",
    wayOut: "Send well-formed JSON in UTF-8 with Content-Type: application/json.",
  },
  "body-too-large": {
    status: 413,
    title: "The body is too large",
    wayOut:
      "Send less at a time: answers in batches of at most 200, photos of at most 15 MB and " +
      "documents of at most 20 MB each, plan documents of at most 512 KiB.",
  },
  "unsupported-type": {
    status: 415,
    title: "The content type is not accepted here",
    wayOut: "Send application/json, for photos a JPEG, PNG or WebP image, for documents a PDF.",
  },
  "not-signed-in": {
    status: 401,
    title: "You are not signed in",
    wayOut:
      "Sign in (POST /api/v1/session), or refresh the session, and send again. Nothing was lost.",
  },
  "sign-in-refused": {
    status: 401,
    title: "Address or password is wrong",
    wayOut: "Check both and try again. An owner of the firm can set a new password.",
  },
  "second-step-needed": {
    status: 401,
    title: "A code is needed to sign in",
    wayOut: "Send address and password again, with `code`: what the authenticator shows.",
  },
  "second-step-missing": {
    status: 403,
    title: "A second step has to be set up first",
    wayOut: "Set it up (POST /api/v1/people/me/two-step, or the page /account), then sign in anew.",
  },
  "too-many-sign-ins": {
    status: 429,
    title: "Too many failed sign-ins",
    wayOut: "Wait for as long as Retry-After says, then try again.",
  },
  "too-many-requests": {
    status: 429,
    title: "Too many requests",
    wayOut: "Wait for as long as Retry-After says, then go on more slowly.",
  },
  "not-allowed": {
    status: 403,
    title: "Your role may not do this",
    wayOut: "Ask someone whose role may; the problem names the roles.",
  },
  "access-ended": {
    status: 403,
    title: "You have no access at present",
    wayOut: "Ask whom the problem names; an owner or manager of the firm can give a new access.",
  },
  "cross-site": {
    status: 403,
    title: "The request came from another site",
    wayOut: "Use Holdpoint's own pages, or send a bearer token instead of cookies.",
  },
  "not-found": {
    status: 404,
    title: "There is no such thing here",
    wayOut: "Check the address. What belongs to another firm does not exist here.",
  },
  conflict: {
    status: 409,
    title: "This does not fit what is already there",
    wayOut: "Read what stands in the way, change that or change the request.",
  },
  "close-out-blocked": {
    status: 409,
    title: "The job cannot be closed yet",
    wayOut:
      "Clear each entry of `blockers`: each names the item, the unit, what is wrong and what clears it.",
  },
  "serial-live-elsewhere": {
    status: 409,
    title: "This serial number is live at another site",
    wayOut:
      "Check the label. If the unit really moved, record its removal at the other site first.",
  },
  "double-booked": {
    status: 409,
    title: "Already booked at that time",
    wayOut: "Choose another time, crew or instrument; `conflicts` lists what is in the way.",
  },
  "person-absent": {
    status: 409,
    title: "Somebody is away at that time",
    wayOut: "Choose another time or crew; `conflicts` lists who is away, from when to when.",
  },
  "not-qualified": {
    status: 409,
    title: "Somebody lacks a qualification that the work asks for",
    wayOut:
      "Send another crew or choose another day; `lacks` lists who lacks which, and when it ended.",
  },
  "job-not-open": {
    status: 409,
    title: "The job is not open",
    wayOut: "A manager can reopen a closed job with a reason; then send again. Nothing was lost.",
  },
  "plan-invalid": {
    status: 422,
    title: "The plan has faults",
    wayOut: "Each entry of `errors` points at a place in the document. Mend those and try again.",
  },
  "evidence-damaged": {
    status: 409,
    title: "The evidence is not whole",
    wayOut: "Restore what the problem names from a backup, then export again.",
  },
  "edited-meanwhile": {
    status: 412,
    title: "It was changed meanwhile",
    wayOut: "Read it again, look at what changed, and send the edit with the new ETag.",
  },
  "if-match-needed": {
    status: 428,
    title: "An edit must say what it saw",
    wayOut:
      "Send the ETag of what you read as If-Match, so that nobody's change is overwritten unseen.",
  },
  "idempotency-key-reused": {
    status: 422,
    title: "This Idempotency-Key was used for another request",
    wayOut: "Use a new key for a new request; the same key only repeats the same request.",
  },
  "id-reused": {
    status: 422,
    title: "This id was used for other content",
    wayOut: "The first content stands. Send the new content under a new id.",
  },
  busy: {
    status: 503,
    title: "The service is busy",
    wayOut: "Wait for as long as Retry-After says, then send the same request again.",
  },
  internal: {
    status: 500,
    title: "Something failed on our side",
    wayOut: "Send the same request again. If it fails again, give the operator the request id.",
  },
} as const satisfies Record<string, { status: number; title: string; wayOut: string }>;

export type ProblemCode = keyof typeof PROBLEMS;

export interface FieldError {
  /** JSON pointer (RFC 6901) into the request: `/body/name`, `/query/limit`. */
  pointer: string;
  detail: string;
}

/**
 * A refusal on its way to the client. Expected refusals are values until here; only the web edge
 * throws.
 */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly extras: Record<string, unknown>;

  constructor(code: ProblemCode, detail: string, extras: Record<string, unknown> = {}) {
    super(detail);
    this.name = "Problem";
    this.code = code;
    this.extras = extras;
  }

  get status(): number {
    return PROBLEMS[this.code].status;
  }
}

/** One that is asked for every few seconds: whoever throws it tells the log what changed. */
export class RepeatedProblem extends Problem {}

export const notFound = (what: string): Problem =>
  new Problem("not-found", `There is no ${what} with this id in your firm.`);

export const invalid = (pointer: string, detail: string): Problem =>
  new Problem("invalid-input", detail, { errors: [{ pointer, detail }] satisfies FieldError[] });
