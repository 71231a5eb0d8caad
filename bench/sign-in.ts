export async function signIn(
  port: number,
  { email, password }: { email: string; password: string },
): Promise<string> {
  const reply = await fetch(`http://127.0.0.1:${port}/api/v1/session`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ email, password }),
  });
  const { accessToken } = (await reply.json()) as { accessToken: string };
  return accessToken;
}
