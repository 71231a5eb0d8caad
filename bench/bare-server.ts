// The baselines: one row by its id, and one row kept, through Fastify and pg, and nothing of ours.
import Fastify from "fastify";
import pg from "pg";

const [url, firmId] = process.argv.slice(2) as [string, string];
const pool = new pg.Pool({ connectionString: url, max: 16 });
const app = Fastify();
app.get<{ Params: { id: string } }>("/units/:id", async (request, reply) => {
  const { rows } = await pool.query(
    "SELECT id, serial, state, model_id, site_id, firmware_level, version FROM unit WHERE firm_id = $1 AND id = $2",
    [firmId, request.params.id],
  );
  return rows[0] ?? reply.code(404).send({ title: "none" });
});
app.post<{ Body: { id: string; body: unknown } }>("/rows", async ({ body }, reply) => {
  await pool.query("INSERT INTO bench_row VALUES ($1, $2)", [body.id, body.body]);
  return reply.code(201).send({ id: body.id });
});
await app.listen({ port: 0, host: "127.0.0.1" });
const address = app.server.address();
process.send?.({ port: typeof address === "object" && address ? address.port : 0 });
process.on("disconnect", () => process.exit());
