/** How long the server is waited for (ms). */
const SERVER = 10_000;

/** The server's answer, or what the device keeps of the app; throws where neither has it. */
export async function fetched(url: string): Promise<Response> {
  const answer = await fetch(url, { signal: AbortSignal.timeout(SERVER) });
  if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
  return answer;
}
