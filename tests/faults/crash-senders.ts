// Crews that submit results as fast as they are answered, and write down what was said to be kept.
import type { PracticeJob, WireAnswer } from "../support/practice-job.ts";
import type { Killable } from "./killable.ts";

const SENDERS = 4;

export interface Submitted {
  sent: WireAnswer[];
  acknowledged: Set<string>;
}

export interface Credentials {
  email: string;
  password: string;
}

export async function signIn(service: Killable, credentials: Credentials): Promise<string> {
  const reply = await fetch(`${service.address}/api/v1/session`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(credentials),
  });
  if (reply.status !== 201) throw new Error(`signing in was answered ${reply.status}`);
  return ((await reply.json()) as { accessToken: string }).accessToken;
}

/** True once the whole reply is here and says that it is stored. */
export async function submit(
  service: Killable,
  token: string,
  jobId: string,
  answer: WireAnswer,
): Promise<boolean> {
  try {
    const reply = await fetch(`${service.address}/api/v1/jobs/${jobId}/answers`, {
      method: "POST",
      headers: { "content-type": "application/json", authorization: `Bearer ${token}` },
      body: JSON.stringify({ answers: [answer] }),
    });
    const body = (await reply.json()) as { answers?: { id: string }[]; detail?: string };
    if (reply.status < 500 && reply.status !== 201) {
      throw new RefusedAnswer(`${reply.status} ${body.detail}`);
    }
    return reply.status === 201 && body.answers?.[0]?.id === answer.id;
  } catch (error) {
    if (error instanceof RefusedAnswer) throw error;
    return false;
  }
}

/** What no crash explains. */
class RefusedAnswer extends Error {}

/** Sends until `goesOn` says no more. */
export async function submitAlong(
  service: Killable,
  token: string,
  job: PracticeJob,
  submitted: Submitted,
  goesOn: () => boolean,
): Promise<void> {
  const takeTurns = async (): Promise<void> => {
    while (goesOn()) {
      for (const answer of job.answers()) {
        if (!goesOn()) return;
        submitted.sent.push(answer);
        const kept = await submit(service, token, job.jobId, answer);
        if (kept) submitted.acknowledged.add(answer.id);
      }
    }
  };
  await Promise.all(Array.from({ length: SENDERS }, takeTurns));
}
