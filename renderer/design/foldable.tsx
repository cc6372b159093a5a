/** Parts of the panel that fold. In: a title with what it says while folded; out: its content, there only while it is open. */
import type { ReactNode } from 'react';
import { Button, Disclosure, DisclosurePanel, Heading } from 'react-aria-components';
import { Icon } from '../ui/index.ts';

export interface FoldableProps {
  readonly title: string;
  /** A few words beside the title. */
  readonly says?: string;
  readonly marked?: boolean;
  /** Rank of its heading in the panel. */
  readonly level: 3 | 4;
  readonly isOpen: boolean;
  readonly onToggle: (open: boolean) => void;
  readonly children: ReactNode;
}

export function Foldable({ title, says = '', marked = false, level, isOpen, onToggle, children }: FoldableProps) {
  return (
    <Disclosure
      className={level === 3 ? 'design-group' : 'design-look'}
      isExpanded={isOpen}
      onExpandedChange={onToggle}
    >
      <Heading level={level}>
        <Button slot="trigger" className="design-fold">
          <Icon name={isOpen ? 'down' : 'right'} />
          <span className="design-fold-title">{title}</span>
          <span className={marked ? 'design-fold-says marked' : 'design-fold-says'}>{says}</span>
        </Button>
      </Heading>
      <DisclosurePanel className="design-fold-panel">
        {isOpen && <div className="design-fields">{children}</div>}
      </DisclosurePanel>
    </Disclosure>
  );
}
