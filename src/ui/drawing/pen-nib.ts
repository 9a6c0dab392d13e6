/** A pen nib that writes to the right, its point 12 pixels before its middle: the mark of a ship on every picture. */
export const PEN_NIB = 'M12 0C7 -1.2 3 -6.4 -2.5 -7L-9 -4.2V4.2L-2.5 7C3 6.4 7 1.2 12 0Z';

/** Its slit and breathing hole. */
export const PEN_NIB_SLIT = 'M11 0H1.2M-2.4 0a1.8 1.8 0 1 0 3.6 0a1.8 1.8 0 1 0 -3.6 0';
