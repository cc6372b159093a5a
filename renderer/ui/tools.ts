/** What every component may reach for: commands, questions, news. In: made once a window; out: a context. */
import { createContext, useContext } from 'react';
import type { Host, StartInfo } from '#host';
import { Announcer } from './announcer.tsx';
import { Asking } from './asking.tsx';
import { Commands } from './commands.ts';
import { PathPicker } from './files/picker.ts';
import { type KeyPlatform, keysText } from './keys.ts';
import { type News, type NewsQueue, newsQueue, tellNews } from './toasts.tsx';

export interface Tools {
  readonly platform: KeyPlatform;
  readonly commands: Commands;
  readonly asking: Asking;
  readonly picker: PathPicker;
  readonly news: NewsQueue;
  readonly announcer: Announcer;
  /** Says something to screen readers alone. */
  readonly say: (text: string) => void;
  /** Keys as the platform shows them; null for none. */
  readonly keys: (keys: string | null) => string | null;
  readonly tell: (news: News) => void;
  /** A problem as news: one sentence. */
  readonly problem: (text: string) => void;
}

export function createTools(host: Host, { platform, dialogs }: Pick<StartInfo, 'platform' | 'dialogs'>): Tools {
  const news = newsQueue();
  const announcer = new Announcer();
  return {
    platform,
    commands: new Commands(platform),
    asking: new Asking(),
    picker: new PathPicker(host, dialogs),
    news,
    announcer,
    say: announcer.say,
    keys: (keys) => (keys === null ? null : keysText(keys, platform)),
    tell: (each) => tellNews(news, each),
    problem: (text) => tellNews(news, { kind: 'problem', text }),
  };
}

const ToolsContext = createContext<Tools | null>(null);

export const ToolsProvider = ToolsContext.Provider;

export function useTools(): Tools {
  const tools = useContext(ToolsContext);
  if (!tools) throw new RangeError('there are no tools around this component');
  return tools;
}
