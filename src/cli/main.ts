/** `npm run plan`: hands the words of the command line to the command, and its status to the shell. */
import process from 'node:process';
import { planCommand } from './planCommand.ts';
import { poseInBrowser } from './poseInBrowser.ts';

process.exitCode = await planCommand(process.argv.slice(2), { stdout: process.stdout, stderr: process.stderr, pose: poseInBrowser });
