// Requirement: torques are told in both N·m and lbf·ft by one relation (NIST SP 811, Appendix B).

/** 1 lbf·ft = 0.3048 m × 0.45359237 kg × 9.80665 m/s², exact (NIST SP 811). */
export const NM_PER_LBF_FT = 0.3048 * 0.45359237 * 9.80665;
