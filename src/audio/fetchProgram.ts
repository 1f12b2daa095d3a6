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
      'This source can’t be opened, because a part of the page could not be loaded from its server; check that the server is running, then try again.',
    );
  }
}
