// Whoever runs the service, at its page: no cookie jar, so that what is sent is seen.
import type supertest from "supertest";

export const OPERATOR_TOKEN = "a token of the test's own";

export function operatorAt(agent: () => ReturnType<typeof supertest>) {
  const typed = (token: string) =>
    agent().post("/operation/session").type("form").set("accept", "text/html").send({ token });
  const page = (cookie = "") =>
    agent().get("/operation").set("accept", "text/html").set("cookie", cookie);
  const bearer = (path: string, token = OPERATOR_TOKEN) =>
    agent().get(path).set("authorization", `Bearer ${token}`);
  /** The cookie as a browser sends it back. */
  const opened = async (): Promise<string> => cookieOf(await typed(OPERATOR_TOKEN)).split(";")[0]!;
  return { typed, page, bearer, opened };
}

export const cookieOf = (reply: supertest.Response): string =>
  String(([reply.headers["set-cookie"] ?? ""].flat() as string[])[0]);
