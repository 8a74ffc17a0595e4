/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program that a whole room is linked into; that it links is the test. */

int
main (void)
{
  return 0;
}
