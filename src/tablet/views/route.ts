// Where the page is, as the address says after "#": the back button and a reload come back to it.
export type Route =
  | { name: "day" }
  | { name: "outbox" }
  | { name: "about" }
  | { name: "sign-in" }
  | { name: "next" | "list" | "close-out" | "snag" | "messages"; jobId: string }
  | { name: "item"; jobId: string; itemId: string; subject: string };

export type JobRoute = Extract<Route, { jobId: string }>;

const PLAIN = ["outbox", "about", "sign-in"] as const;
const OF_JOB = ["list", "close-out", "snag", "messages"] as const;

/** Anything unknown leads to the day. */
export function readRoute(hash: string): Route {
  const parts = hash
    .replace(/^#?\/?/, "")
    .split("/")
    .map(decoded);
  const [top = "", jobId = "", part = "", itemId = "", subject = ""] = parts;
  const plain = PLAIN.find((name) => name === top);
  if (plain) return { name: plain };
  if (top !== "job" || jobId === "") return { name: "day" };
  if (part === "item" && itemId !== "") return { name: "item", jobId, itemId, subject };
  const ofJob = OF_JOB.find((name) => name === part);
  return { name: ofJob ?? "next", jobId };
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return "";
  }
}

/** The address of a place, for links. */
export function addressOf(route: Route): string {
  if (!("jobId" in route)) return route.name === "day" ? "#/" : `#/${route.name}`;
  const job = `#/job/${encodeURIComponent(route.jobId)}`;
  if (route.name === "next") return job;
  if (route.name !== "item") return `${job}/${route.name}`;
  const names = [route.itemId, route.subject].map(encodeURIComponent);
  return `${job}/item/${names.join("/")}`;
}
