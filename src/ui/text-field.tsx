import { Text } from 'ink';
import TextInput from 'ink-text-input';
import { type ReactNode, useEffect, useLayoutEffect, useSyncExternalStore } from 'react';
import type { Feed } from './feed.ts';

/** ink-text-input behind a feed that gives it one key after the other. */
export const TextField = ({
  value,
  isSecret,
  feed,
  onChange,
}: {
  readonly value: string;
  readonly isSecret: boolean;
  readonly feed: Feed;
  readonly onChange: (text: string) => void;
}): ReactNode => {
  const count = useSyncExternalStore(feed.subscribe, feed.count);
  useLayoutEffect(() => {
    feed.mounted(true);
    return () => feed.mounted(false);
  }, [feed]);
  // Effects of children run before those of their parents: by now the input listens with this value.
  useEffect(() => feed.committed(count), [feed, count]);
  return (
    <Text wrap="truncate-start">
      <TextInput value={value} onChange={onChange} {...(isSecret ? { mask: '*' } : {})} />
    </Text>
  );
};
