// Who and what the story is about.
import type { Caller } from "./http.ts";

export type Say = (step: string, text: string) => void;

export interface Account {
  email: string;
  password: string;
}

export interface Cast {
  office: Caller;
  installer: Caller;
  manager: Caller;
}

export interface Stage {
  siteId: string;
  crewId: string;
  modelId: string;
  modelCode: string;
  planId: string;
  instruments: { multimeter: string; lapsedTester: string; tester: string; wrench: string };
}
