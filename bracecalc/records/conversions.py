"""What one unit is in another, exact by definition (NIST SP 811, appendix B)."""

from __future__ import annotations

MM_PER_INCH = 25.4
NEWTONS_PER_LBF = 4.4482216152605
N_MM2_PER_PSI = NEWTONS_PER_LBF / MM_PER_INCH**2
KPA_PER_PSF = 0.047880258980336
KG_PER_LB = 0.45359237
