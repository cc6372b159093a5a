/** Dialogs in the middle, drawers at the side, menus that drop down. In: titles and content; out: overlays that trap focus. */
import type { ReactNode } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { IconButton } from './controls.tsx';
import { texts } from './texts/en.ts';

export interface DialogProps {
  readonly title: string;
  /** Called when the person closes it; null for one that must be answered. */
  readonly onClose: (() => void) | null;
  readonly wide?: boolean;
  readonly role?: 'dialog' | 'alertdialog';
  readonly children: ReactNode;
  /** Buttons, the main one last. */
  readonly actions?: ReactNode;
}

export function Dialog({ title, onClose, wide = false, role = 'dialog', children, actions }: DialogProps) {
  return (
    <ModalOverlay
      isOpen
      className="veil"
      isDismissable={onClose !== null && role === 'dialog'}
      isKeyboardDismissDisabled={onClose === null}
      onOpenChange={(open) => {
        if (!open) onClose?.();
      }}
    >
      <Modal className={wide ? 'dialog-box wide' : 'dialog-box'}>
        <AriaDialog className="dialog" role={role}>
          <Heading slot="title">{title}</Heading>
          {children}
          {actions && <div className="dialog-actions">{actions}</div>}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}

export interface DrawerProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A page at the side for what belongs to the whole book. */
export function Drawer({ title, onClose, children }: DrawerProps) {
  return (
    <ModalOverlay
      isOpen
      isDismissable
      className="veil beside"
      onOpenChange={(open) => {
        if (!open) onClose();
      }}
    >
      <Modal className="drawer-box">
        <AriaDialog className="dialog">
          <div className="drawer-head">
            <Heading slot="title">{title}</Heading>
            <IconButton icon="close" name={texts.common.close} onPress={onClose} />
          </div>
          {children}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}
