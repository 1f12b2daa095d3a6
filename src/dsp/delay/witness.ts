/** What one witness of the delay says (first arrivals, the low end, or the waveform), and whether it is sure. */
import { Mode } from '../signal/modeFinder';

export class Witness extends Mode {
  sure = false;

  override none(): void {
    super.none();
    this.sure = false;
  }
}
