import { type Import, importsOf } from "./imports.ts";
import { featureOf, isSchemas, LAYERS, layerOf } from "./layers.ts";
import type { ProjectFile } from "./project-files.ts";
import { isCode } from "./syntax.ts";

/**
 * Imports point one way: main → app → features → domain. A feature, and a run, uses another
 * feature's stores, verbs, schemas and types, never its routes or pages; the tablet schemas only.
 */
export function checkDirections(files: readonly ProjectFile[]): string[] {
  return files.filter(({ path }) => path.startsWith("src/") && isCode(path)).flatMap(checkFile);
}

function checkFile(file: ProjectFile): string[] {
  const layer = layerOf(file.path);
  if (!layer) {
    return [
      `${file.path}:1: belongs to no layer; move it or add its layer to tests/tidy/layers.ts`,
    ];
  }
  return importsOf(file).flatMap((imported) => {
    const problem = packageProblem(layer, imported) ?? fileProblem(file.path, layer, imported);
    return problem ? [imported.report(problem)] : [];
  });
}

function packageProblem(layer: string, imported: Import): string | undefined {
  const allowed = LAYERS[layer]?.packages;
  if (imported.package === undefined || !allowed || allowed.includes(imported.package)) return;
  return `${layer} may not import ${imported.package}; it has ${allowed.join(", ")}`;
}

function fileProblem(from: string, layer: string, imported: Import): string | undefined {
  if (imported.file === undefined) return;
  if (!imported.file.startsWith("src/")) return `src may not import ${imported.file}`;
  const target = layerOf(imported.file);
  if (target !== layer && !(target && LAYERS[layer]?.imports.includes(target))) {
    return `${layer} may not import ${target ?? "a file of no layer"} (${imported.file})`;
  }
  if (layer === "tablet" && target === "language") return wordsProblem(imported);
  return target === "features" ? featureProblem(from, layer, imported.file) : undefined;
}

/**
 * The tablet's page is downloaded over a cellar's signal: of the languages it has its own texts,
 * what writes them small and what retells the rules' sentences, never the whole catalogue or the
 * library that the server says it with.
 */
const FOR_THE_TABLET =
  /^src\/language\/(?:languages|message|pseudo|sentences\/retell|tablet-[a-z]+)\.ts$/;

const wordsProblem = ({ file = "", typeOnly }: Import): string | undefined =>
  typeOnly || FOR_THE_TABLET.test(file)
    ? undefined
    : `the tablet has its own texts only, not ${file}`;

function featureProblem(from: string, layer: string, target: string): string | undefined {
  if (["app", "main", "cli"].includes(layer)) return;
  if (featureOf(from) !== undefined && featureOf(from) === featureOf(target)) return;
  if (isSchemas(target)) return;
  if (layer === "tablet") return `the tablet imports schemas only, not ${target}`;
  if (/\/(?:[a-z0-9-]+-)?(?:routes|pages)\.ts$/.test(target)) {
    return `another feature's routes and pages are its own (${target})`;
  }
  return undefined;
}
