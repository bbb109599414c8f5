/** How the boxes of an order find their places: the rules for maximal free rectangles, best value first. */
export const LOWEST_TOP = 0;
export const SHORT_SIDE = 1;
export const LEAST_AREA = 2;
export const FAR_FROM_CORNER = 3;
export const MOST_TOUCHING = 4;
export const LEFTMOST_RIGHT = 5;
export const LOWEST_CORNER = 6;
export const LEFTMOST_CORNER = 7;
/** Gap by gap, upon the lower side or upon the left one. */
export const SKYLINE_UP = 8;
export const SKYLINE_SIDEWAYS = 9;

/** Strip by strip, never drawn by chance. */
export const STRIPS_UPWARDS = 10;
export const STRIPS_SIDEWAYS = 11;

export const RULE_COUNT = 10;
export const FREE_RULE_COUNT = 8;

/** The limit under which every box must find room. */
export const NONE_LEFT = -1;
