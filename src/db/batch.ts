// Statements that travel to PostgreSQL as one message and come back as one: pg itself ends each
// statement with a Sync, after which the server answers, and both sides wake up, once more. Within
// one Sync the server holds to one transaction by itself: whatever fails takes the others with it
// (PostgreSQL's documentation, "Message Flow: Pipelining").
import pg from "pg";

/** A statement of a firm's transaction; a name makes it prepared once per connection. */
export interface Statement {
  name?: string;
  text: string;
  values?: unknown[];
}

/** What pg's connection offers whoever speaks the protocol through it; its types leave it out. */
interface Wire {
  stream: { cork(): void; uncork(): void };
  parsedStatements: Record<string, string | undefined>;
  on(event: "parseComplete", told: () => void): void;
  parse(message: { text: string; name: string; types: undefined }): void;
  bind(message: object): void;
  describe(message: { type: "P"; name: string }): void;
  execute(message: { portal: string; rows: number }): void;
  sync(): void;
}

interface RowMaker extends pg.QueryResult {
  addFields(fields: unknown): void;
  parseRow(fields: unknown): never;
  addRow(row: never): void;
  addCommandComplete(message: unknown): void;
}

const { Result, utils } = pg as unknown as {
  Result: new (rowMode: undefined, types: typeof pg.types) => RowMaker;
  utils: { prepareValue(value: unknown): unknown };
};

/** The batch that a connection is at work on. */
const current = new WeakMap<Wire, Batch>();

/** Sends the statements on the connection, and resolves when the server has done all of them. */
export const sendBatch = (
  client: pg.PoolClient,
  statements: readonly Statement[],
): Promise<pg.QueryResult[]> =>
  new Promise((resolve, reject) => {
    const answered: Answered = (error, results) => (error ? reject(error) : resolve(results));
    const ask = client.query.bind(client) as unknown as (batch: Batch, answered: Answered) => void;
    ask(new Batch(statements), answered);
  });

type Answered = (error: Error | null, results: pg.QueryResult[]) => void;

/** What pg asks of a query that speaks the protocol itself. */
class Batch {
  /** Set by pg to what `query` was called with. */
  callback?: Answered;
  readonly #statements: readonly Required<Statement>[];
  readonly #results: RowMaker[] = [];
  /** Named statements that the server was asked to prepare and has not yet said so, in order. */
  readonly #preparing: Required<Statement>[] = [];
  #result = new Result(undefined, pg.types);
  #failure: Error | null = null;

  constructor(statements: readonly Statement[]) {
    this.#statements = statements.map(({ name = "", text, values = [] }) => {
      return { name, text, values: values.map(utils.prepareValue) };
    });
  }

  /** For the log of slow queries. */
  get text(): string {
    return this.#statements.map(({ text }) => text).join(";\n");
  }

  submit(wire: Wire): Error | null {
    const strange = this.#statements.find(({ name, text }) => {
      const known = name === "" ? undefined : wire.parsedStatements[name];
      return known !== undefined && known !== text;
    });
    if (strange) return new Error(`"${strange.name}" names another statement already`);
    if (!current.has(wire)) wire.on("parseComplete", () => current.get(wire)?.prepared(wire));
    current.set(wire, this);
    wire.stream.cork();
    for (const statement of this.#statements) this.#send(wire, statement);
    wire.sync();
    wire.stream.uncork();
    return null;
  }

  #send(wire: Wire, statement: Required<Statement>): void {
    const { name, text, values } = statement;
    const asked = this.#preparing.find((other) => other.name === name)?.text;
    if (name === "" || (wire.parsedStatements[name] ?? asked) === undefined) {
      wire.parse({ text, name, types: undefined });
      this.#preparing.push(statement);
    }
    wire.bind({ portal: "", statement: name, values, binary: false });
    wire.describe({ type: "P", name: "" });
    wire.execute({ portal: "", rows: 0 });
  }

  prepared(wire: Wire): void {
    const statement = this.#preparing.shift();
    if (statement?.name) wire.parsedStatements[statement.name] = statement.text;
  }

  handleRowDescription({ fields }: { fields: unknown }): void {
    this.#result.addFields(fields);
  }

  handleDataRow({ fields }: { fields: unknown }): void {
    try {
      this.#result.addRow(this.#result.parseRow(fields));
    } catch (error) {
      this.#failure ??= error as Error;
    }
  }

  handleCommandComplete(message: unknown): void {
    this.#result.addCommandComplete(message);
    this.handleEmptyQuery();
  }

  handleEmptyQuery(): void {
    this.#results.push(this.#result);
    this.#result = new Result(undefined, pg.types);
  }

  handleError(error: Error): void {
    this.callback?.(error, []);
  }

  handleReadyForQuery(): void {
    this.callback?.(this.#failure, this.#results);
  }
}
