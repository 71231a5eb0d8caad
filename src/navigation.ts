// Which pages the menu leads to, in which group, and who sees them there.
import type { NavigationLink } from "./web/page.ts";

export const NAVIGATION: readonly NavigationLink[] = [
  { href: "/today", key: "today.link", group: "work" },
  { href: "/jobs", key: "frame.link.jobs", group: "work" },
  { href: "/plans", key: "plans.link", group: "work", roles: ["owner", "office", "manager"] },
  { href: "/crews", key: "crews.link", group: "firm" },
  { href: "/product-models", key: "models.link", group: "places" },
  {
    href: "/fleet",
    key: "fleet.link",
    group: "fleet",
    roles: ["owner", "office", "manager", "auditor"],
  },
  { href: "/firmware", key: "frame.link.due", group: "fleet" },
  {
    href: "/rounds",
    key: "rounds.link",
    group: "fleet",
    roles: ["owner", "office", "manager", "auditor"],
  },
];
