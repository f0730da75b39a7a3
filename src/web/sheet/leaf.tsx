/** A leaf laid over the sheet: one question or one answer; Escape or a tap beside it leaves it. */
import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';

export interface LeafProps {
  readonly title: string;
  readonly onLeave: () => void;
  readonly children: ReactNode;
}

export function Leaf({ title, onLeave, children }: LeafProps) {
  return (
    <ModalOverlay className="veil" isDismissable isOpen onOpenChange={(open) => !open && onLeave()}>
      <Modal className="leaf">
        <Dialog>
          <Heading slot="title">{title}</Heading>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
