import type { Changes } from "./changes.ts";
import type { Connection } from "./connection.ts";
import type { RowMark } from "./marker.ts";
import type { Platform } from "./platform.ts";

/** What the sides of the store share. */
export interface StoreParts {
  firmId: string;
  name: string;
  platform: Platform;
  connection: Connection;
  changes: Changes;
  personId(): string;
  /** Writes down, outside the database, how far its rows are. */
  note(marks: readonly RowMark[]): void;
  /** What was noted last, unless another tab may have changed it since. */
  noted(): readonly RowMark[] | undefined;
}
