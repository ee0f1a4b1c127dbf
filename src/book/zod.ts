/**
 * The one door to zod: switches its code generation off before any schema is built.
 *
 * zod probes `new Function` to see whether it may generate code. Under the app's content security policy
 * that probe is blocked and reported as a violation, though nothing is wrong. Schemas of documents are small,
 * so nothing is lost without it.
 */
import * as z from 'zod';

z.config({ jitless: true });

export { z };
