/* SPDX-License-Identifier: GPL-3.0-or-later
   oracle.h - rationals from another library: FLINT where it is there, else GMP.  */
#ifndef BR_TESTS_SHEET_ORACLE_H
#define BR_TESTS_SHEET_ORACLE_H

#ifdef HAVE_FLINT
# include <flint/flint.h>
# include <flint/fmpq.h>
# define ORACLE "FLINT"
typedef fmpq_t oracle;
# define oracle_init fmpq_init
# define oracle_clear fmpq_clear
# define oracle_set fmpq_set
# define oracle_set_ratio(z, n, d) fmpq_set_si ((z), (slong) (n), (ulong) (d))
# define oracle_add fmpq_add
# define oracle_sub fmpq_sub
# define oracle_mul fmpq_mul
# define oracle_div fmpq_div
# define oracle_neg fmpq_neg
# define oracle_abs fmpq_abs
# define oracle_cmp fmpq_cmp
# define oracle_is_zero fmpq_is_zero
# define oracle_text(z) fmpq_get_str (NULL, 10, (z))
# define oracle_text_free flint_free
# define oracle_end flint_cleanup
#else
# include <gmp.h>
# define ORACLE "GMP"
typedef mpq_t oracle;
# define oracle_init mpq_init
# define oracle_clear mpq_clear
# define oracle_set mpq_set
# define oracle_set_ratio(z, n, d) \
  (mpq_set_si ((z), (long) (n), (unsigned long) (d)), mpq_canonicalize (z))
# define oracle_add mpq_add
# define oracle_sub mpq_sub
# define oracle_mul mpq_mul
# define oracle_div mpq_div
# define oracle_neg mpq_neg
# define oracle_abs mpq_abs
# define oracle_cmp mpq_cmp
# define oracle_is_zero(z) (mpq_sgn (z) == 0)
# define oracle_text(z) mpq_get_str (NULL, 10, (z))
# define oracle_text_free free
# define oracle_end() ((void) 0)
#endif

#endif
