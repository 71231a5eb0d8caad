import { type Import, importsOf } from "./imports.ts";
import { isStore, layerOf } from "./layers.ts";
import type { ProjectFile } from "./project-files.ts";
import { chainOf, finding, isCode, nameOf, type SyntaxNode, syntaxOf, walk } from "./syntax.ts";

const DATABASE_PACKAGES = ["pg", "@prisma/client", "@prisma/adapter-pg"];
const HANDING_ON = [
  "src/db/scope.ts",
  "src/db/audit-scope.ts",
  "src/db/query.ts",
  "src/db/idempotency-keys.ts",
];
const LAYERS_WITH_A_HANDLE = ["db", "runs", "app", "main", "cli"];

/**
 * The database is touched in src/db/ and in store files (store.ts, …-store.ts) only: they alone
 * import the generated client or a driver, query through it, and hold SQL. Other modules of src/db/
 * may be imported by these and by runs, app, main and cli, which pass the handle on; everyone else
 * may import types, and what hands a store its transaction: the firm scope and the query.
 * Limits: SQL is known by its beginning, so a fragment such as "order by …" is not seen; a query
 * through Prisma by a handle named tx, or by a method that only Prisma has.
 */
export function checkDatabaseAccess(files: readonly ProjectFile[]): string[] {
  const outside = files.filter(
    ({ path }) => path.startsWith("src/") && isCode(path) && !owns(path),
  );
  return outside.flatMap((file) => [...checkImports(file), ...checkSql(file)]);
}

function owns(path: string): boolean {
  return path.startsWith("src/db/") || isStore(path);
}

function checkImports(file: ProjectFile): string[] {
  return importsOf(file).flatMap((imported) => {
    const problem = importProblem(file.path, imported);
    return problem ? [imported.report(problem)] : [];
  });
}

function importProblem(path: string, imported: Import): string | undefined {
  const driver = imported.package ?? "";
  if (DATABASE_PACKAGES.includes(driver)) return `only src/db and store files import ${driver}`;
  if (imported.file?.startsWith("src/db/generated/")) {
    return "only src/db and store files import the generated client";
  }
  const handle = LAYERS_WITH_A_HANDLE.includes(layerOf(path) ?? "");
  if (!imported.file?.startsWith("src/db/") || imported.typeOnly || handle) return;
  if (HANDING_ON.includes(imported.file)) return;
  return `only types may be imported from ${imported.file} here; put the query into a store file`;
}

const SQL = [
  /^\s*(?:select|SELECT)\s[\s\S]*\s(?:from|FROM)\s/,
  /^\s*(?:insert into|INSERT INTO|delete from|DELETE FROM)\s/,
  /^\s*(?:update|UPDATE)\s+\S+\s+(?:set|SET)\s/,
  /^\s*(?:with|WITH)\s+\w+\s+(?:as|AS)\s*\(/,
];

function checkSql(file: ProjectFile): string[] {
  const found: string[] = [];
  walk(syntaxOf(file), (node) => {
    if (/^\$(?:query|execute)Raw/.test(nameOf(node) ?? "") || isSql(literalText(node))) {
      found.push(finding(file, node, "SQL stands in src/db and store files only"));
    }
    if (node.type === "CallExpression" && isQuery(chainOf(node))) {
      found.push(finding(file, node, "queries stand in src/db and store files only"));
    }
  });
  return found;
}

const QUERIES = /^(?:create|update|delete|upsert|count|aggregate|groupBy|find)/;
const PRISMA_ONLY = /^(?:find(?:Many|First|Unique)|(?:create|update|delete)Many)/;

/** tx.job.update(…), or anything.job.findMany(…). */
function isQuery(chain: readonly string[]): boolean {
  const method = chain.at(-1) ?? "";
  return (
    PRISMA_ONLY.test(method) || (chain.length === 3 && chain[0] === "tx" && QUERIES.test(method))
  );
}

function isSql(text: string): boolean {
  return SQL.some((beginning) => beginning.test(text));
}

/** A text's or a template's words, with a gap for each expression inside it. */
function literalText(node: SyntaxNode): string {
  if (node.type === "Literal" && typeof node.value === "string") return node.value;
  if (node.type !== "TemplateLiteral" || !Array.isArray(node.quasis)) return "";
  return node.quasis.map((piece) => String(piece.value.cooked)).join(" ? ");
}
