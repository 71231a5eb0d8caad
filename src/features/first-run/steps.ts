import type { MessageKey } from "../../language/catalogue.ts";
import type { Begun } from "./store.ts";

/** From an empty firm to its first visit, in the order in which each needs the one before. */
const STEPS = [
  { name: "installers", href: "/people" },
  { name: "crew", href: "/crews" },
  { name: "model", href: "/product-models/new" },
  { name: "instrument", href: "/instruments" },
  { name: "plan", href: "/plans" },
  { name: "customer", href: "/customers" },
  { name: "site", href: "/sites" },
  { name: "job", href: "/jobs/new" },
  { name: "visit", href: "/jobs" },
] as const satisfies readonly { name: keyof Begun; href: string }[];

export interface Step {
  title: MessageKey;
  why: MessageKey;
  href: string;
  done: boolean;
  /** The first one that is not done. */
  next: boolean;
}

export function stepsOf(begun: Begun): Step[] {
  const next = STEPS.find(({ name }) => !begun[name])?.name;
  return STEPS.map(({ name, href }) => ({
    title: `begin.${name}`,
    why: `begin.${name}.why`,
    href,
    done: begun[name],
    next: name === next,
  }));
}

/** With a first visit in the diary, or jobs that came another way, nobody needs to be led. */
export const isUnderWay = (begun: Begun): boolean => begun.visit;
