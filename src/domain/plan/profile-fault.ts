// Requirement: an expression that says more than plans may is refused with the reason (blueprint: a
// plan is checked when it is published).

export type FaultCode = "unknown-name" | "not-allowed";

/** Why an expression is outside what plans may write; the compiler of expressions catches it. */
export class ProfileFault extends Error {
  readonly code: FaultCode;

  constructor(code: FaultCode, message: string) {
    super(message);
    this.code = code;
  }
}

/** A fault of something that plans may not say. */
export const notAllowed = (message: string): ProfileFault =>
  new ProfileFault("not-allowed", message);
