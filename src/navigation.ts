// Which pages the menu leads to, in which group, and who sees them there.
import type { NavigationLink } from "./web/page.ts";

export const NAVIGATION: readonly NavigationLink[] = [
  { href: "/today", key: "today.link", group: "work" },
  { href: "/jobs", key: "frame.link.jobs", group: "work" },
  { href: "/recurring-inspections", key: "recurring.title", group: "work" },
  { href: "/account/calendar", key: "calendar.link", group: "work" },
  { href: "/plans", key: "plans.link", group: "work", roles: ["owner", "office", "manager"] },
  {
    href: "/people",
    key: "people.title",
    group: "firm",
    roles: ["owner", "office", "manager", "auditor"],
  },
  { href: "/crews", key: "crews.link", group: "firm" },
  {
    href: "/absences",
    key: "absences.title",
    group: "firm",
    roles: ["owner", "office", "manager", "installer"],
  },
  { href: "/working-hours", key: "workingHours.title", group: "firm" },
  { href: "/qualifications", key: "qualifications.title", group: "firm" },
  {
    href: "/outbox",
    key: "frame.link.outbox",
    group: "firm",
    roles: ["owner", "office", "manager"],
  },
  {
    href: "/customers",
    key: "frame.link.customers",
    group: "places",
    roles: ["owner", "office", "manager", "auditor"],
  },
  { href: "/sites", key: "frame.link.sites", group: "places" },
  { href: "/units", key: "frame.link.units", group: "places" },
  { href: "/instruments", key: "frame.link.instruments", group: "places" },
  { href: "/goods-in", key: "frame.link.goodsIn", group: "places" },
  { href: "/product-models", key: "models.link", group: "places" },
  {
    href: "/fleet",
    key: "fleet.link",
    group: "fleet",
    roles: ["owner", "office", "manager", "auditor"],
  },
  { href: "/firmware", key: "frame.link.due", group: "fleet" },
  {
    href: "/firmware/releases",
    key: "releases.link",
    group: "fleet",
    roles: ["owner", "office", "manager", "auditor"],
  },
  {
    href: "/nonconformances",
    key: "nonconformance.title",
    group: "record",
    roles: ["owner", "office", "manager", "auditor"],
  },
  {
    href: "/rounds",
    key: "rounds.link",
    group: "fleet",
    roles: ["owner", "office", "manager", "auditor"],
  },
];
