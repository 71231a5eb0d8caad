/** Which fields a refusal points at, in its order; undefined when it points at none. */
export const pointersOf = (reply: {
  body: { errors?: { pointer: string }[] };
}): string[] | undefined => reply.body.errors?.map(({ pointer }) => pointer);
