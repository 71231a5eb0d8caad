// What the templates of a list need: links that sort, filter, page and export and lose nothing.

export interface ListView {
  /** By column: where a click leads, and how the list is sorted by it now. */
  columns: Record<string, { href: string; sorted: "ascending" | "descending" | "none" }>;
  next?: string;
  first?: string;
  exported?: string;
}

export interface ListState {
  path: string;
  /** The filters in use, as they stand in the address; no cursor among them. */
  filters: Readonly<Record<string, string | undefined>>;
  /** "name" or "-name"; absent where the list has one order only. */
  sort?: string;
  columns?: readonly string[];
  /** The cursor of the page after this one, null on the last. */
  next: string | null;
  /** The cursor of this page, absent on the first. */
  cursor?: string | undefined;
  /** Path of the export, which takes the same filters. */
  exportPath?: string;
  /** Id of the part that holds the list, where the page has more above it. */
  part?: string | undefined;
}

/** Sorting anew starts at the first page; a second click turns the order round. */
export function listView(state: ListState): ListView {
  const { path, sort, next, cursor, exportPath } = state;
  const part = state.part === undefined ? "" : `#${state.part}`;
  const address = (more: Record<string, string | undefined>) =>
    addressOf(path, { ...state.filters, ...more }) + part;
  const columns = (state.columns ?? []).map((column) => {
    const sorted =
      sort === column ? "ascending" : sort === `-${column}` ? "descending" : ("none" as const);
    const to = sorted === "ascending" ? `-${column}` : column;
    return [column, { href: address({ sort: to }), sorted }] as const;
  });
  const view: ListView = { columns: Object.fromEntries(columns) };
  if (next !== null) view.next = address({ sort, cursor: next });
  if (cursor !== undefined) view.first = address({ sort });
  if (exportPath !== undefined) {
    view.exported = addressOf(exportPath, { ...state.filters, sort });
  }
  return view;
}

function addressOf(path: string, query: Readonly<Record<string, string | undefined>>): string {
  const parameters = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== "") parameters.set(name, value);
  }
  return parameters.size === 0 ? path : `${path}?${parameters}`;
}
