/** What the documents say of the program is so. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';

const readme = readFileSync('README.md', 'utf8');
const { version, scripts, files } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  readonly version: string;
  readonly scripts: Readonly<Record<string, string>>;
  readonly files: readonly string[];
};
const help = newHome().run(['--help']).stdout;

const commandsOf = (text: string): readonly string[] =>
  [...(text.split('\nCommands:\n')[1]?.split('\n\n')[0] ?? '').matchAll(/^ {2}([a-z]+)\b/gm)].map(
    ([, command = '']) => command,
  );

describe('README', () => {
  it('names every command that --help lists', () => {
    const commands = commandsOf(help);
    expect(commands).toContain('verify');
    for (const command of commands) expect(readme).toContain(`tarebook ${command}`);
  });

  it('names every exit status that --help lists', () => {
    const [, table = ''] = help.split('Exit status:\n');
    const [, told = ''] = /Exit status:([\s\S]+?)\n\n/.exec(readme) ?? [];
    for (const [, status] of table.matchAll(/^ {2}(\d+)/gm)) {
      expect(told).toMatch(new RegExp(`(?:^|[^\\d])${status}(?:[^\\d]|$)`));
    }
    expect([...table.matchAll(/^ {2}\d+/gm)]).toHaveLength(7);
  });

  it('names only files that are there', () => {
    for (const [, path = ''] of readme.matchAll(/\]\(([^):#]+)\)/g)) {
      expect([path, existsSync(path)]).toEqual([path, true]);
    }
  });

  it('names only scripts that package.json has', () => {
    for (const [, script = ''] of readme.matchAll(/npm run ([\w:]+)/g)) {
      expect(Object.keys(scripts)).toContain(script);
    }
  });
});

describe('package.json', () => {
  it('has the version of the newest heading of the changelog', () => {
    const [, newest] = /^## (\d+\.\d+\.\d+)/m.exec(readFileSync('CHANGELOG.md', 'utf8')) ?? [];
    expect(newest).toBe(version);
    expect(newHome().run(['--version']).stdout).toBe(`${version}\n`);
  });

  it('ships only what is there', () => {
    for (const file of files) expect([file, existsSync(file)]).toEqual([file, true]);
  });
});
