import { Component, type ReactNode } from 'react';

interface Props {
  readonly children?: ReactNode;
  readonly onFault: (fault: unknown) => void;
}

/** Hands a fault in drawing over instead of showing source code to a maker. React has no other way than a class. */
export class Boundary extends Component<Props, { readonly isBroken: boolean }> {
  override readonly state = { isBroken: false };

  static getDerivedStateFromError(): { readonly isBroken: boolean } {
    return { isBroken: true };
  }

  override componentDidCatch(fault: unknown): void {
    this.props.onFault(fault);
  }

  override render(): ReactNode {
    return this.state.isBroken ? null : this.props.children;
  }
}
