import { problem } from './problems';

/**
 * What only some sources need is fetched when one of them is opened.
 * @throws ProblemError `part-missing`
 */
export async function fetchProgram<Program>(load: () => Promise<Program>): Promise<Program> {
  try {
    return await load();
  } catch {
    throw problem(
      'part-missing',
      'Part of the program could not be loaded from this page’s server; check that the server is running, then try again.',
    );
  }
}
