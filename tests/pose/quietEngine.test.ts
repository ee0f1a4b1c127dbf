import { describe, expect, it } from 'vitest';
import { type NoisyConsole, quietEngine } from '../../src/pose/quietEngine.ts';

describe("the engine's log lines", () => {
  it('go to debug where they are notes or warnings, and nothing else does', () => {
    const heard: string[] = [];
    const hear = (level: string) => (...words: unknown[]): void => { heard.push(`${level} ${words.join(' ')}`); };
    const fake: NoisyConsole = { log: hear('log'), warn: hear('warn'), error: hear('error'), debug: hear('debug') };
    quietEngine(fake);
    fake.error('INFO: Created TensorFlow Lite XNNPACK delegate for CPU.');
    fake.warn('W1125 11:27:19.231000 2172416 gl_context.cc:1135] OpenGL error checking is disabled');
    fake.log('I1125 11:27:19.228000 2172416 gl_context.cc:408] GL version: 3.0');
    fake.log('Graph successfully started running.');
    fake.error('E1125 11:27:19.228000 2172416 graph.cc:1] no');
    fake.error('W: a word of ours');
    fake.error(new Error('INFO: not text'));
    expect(heard.map((line) => line.split(' ')[0])).toEqual(['debug', 'debug', 'debug', 'debug', 'error', 'error', 'error']);
  });
});
