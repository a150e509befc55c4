/* SPDX-License-Identifier: GPL-3.0-or-later
   solver.c - covering problems by GLPK: prices by the simplex method, whole uses by branch and
   cut.  Sizes are checked before each call, as GLPK ends the process over a wrong one.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "solver.h"

#include <math.h>
#include <stdlib.h>

#include <glpk.h>

#define MOST_ROWS 1000
#define MOST_COLUMNS 20000

/* The limits at which a search should stop, for its callbacks.  */
typedef struct limits
{
  int64_t target;
  const volatile sig_atomic_t *flag;
} limits;

static int
fits (const br_cover *c)
{
  return c->rows > 0 && c->rows <= MOST_ROWS && c->columns > 0 && c->columns <= MOST_COLUMNS;
}

/* The problem, columns whole where WHOLE is set; NULL when memory ran out.  */
static glp_prob *
make_problem (const br_cover *c, int whole)
{
  int *index = malloc ((c->rows + 1) * sizeof *index);
  double *value = malloc ((c->rows + 1) * sizeof *value);
  glp_prob *problem = index && value ? glp_create_prob () : NULL;
  if (problem)
    {
      glp_set_obj_dir (problem, GLP_MIN);
      glp_add_rows (problem, (int) c->rows);
      glp_add_cols (problem, (int) c->columns);
      for (size_t i = 0; i < c->rows; i++)
        glp_set_row_bnds (problem, (int) i + 1, GLP_LO, (double) c->demand[i], 0);
    }
  for (size_t j = 0; problem && j < c->columns; j++)
    {
      int n = 0;
      for (size_t i = 0; i < c->rows; i++)
        if (c->counts[j * c->rows + i] > 0)
          {
            index[++n] = (int) i + 1;
            value[n] = c->counts[j * c->rows + i];
          }
      glp_set_mat_col (problem, (int) j + 1, n, index, value);
      glp_set_obj_coef (problem, (int) j + 1, 1);
      glp_set_col_bnds (problem, (int) j + 1, GLP_LO, 0, 0);
      if (whole)
        glp_set_col_kind (problem, (int) j + 1, GLP_IV);
    }
  free (index);
  free (value);
  return problem;
}

static int64_t
scaled (double x)
{
  if (!(x > 0))
    return 0;
  return x < 1e6 ? (int64_t) (x * (double) BR_COVER_ONE) : 1000000 * BR_COVER_ONE;
}

static int
solve_relaxed (glp_prob *problem, int milliseconds)
{
  glp_smcp options;
  glp_init_smcp (&options);
  options.msg_lev = GLP_MSG_OFF;
  options.tm_lim = milliseconds;
  glp_std_basis (problem);
  return glp_simplex (problem, &options) == 0 && glp_get_status (problem) == GLP_OPT;
}

static int
relax (int64_t *uses, int64_t *prices, const br_cover *c)
{
  int ok = 0;
  if (!fits (c))
    return 0;
  glp_term_out (GLP_OFF);
  glp_prob *problem = make_problem (c, 0);
  if (problem && solve_relaxed (problem, 2000))
    {
      for (size_t j = 0; j < c->columns; j++)
        {
          /* A value within 1e-7 of an integer is taken as that integer.  */
          double x = glp_get_col_prim (problem, (int) j + 1), r = floor (x + 0.5);
          uses[j] = scaled (fabs (x - r) < 1e-7 ? r : x);
        }
      for (size_t i = 0; i < c->rows; i++)
        prices[i] = scaled (glp_get_row_dual (problem, (int) i + 1));
      ok = 1;
    }
  if (problem)
    glp_delete_prob (problem);
  return ok;
}

/* Called in the midst of branch and cut.  */
static void
look (glp_tree *tree, void *user)
{
  const limits *l = user;
  glp_prob *problem = glp_ios_get_prob (tree);
  int reached = glp_mip_status (problem) == GLP_FEAS
                && glp_mip_obj_val (problem) < (double) l->target + 0.5;
  if (reached || (l->flag && *l->flag))
    glp_ios_terminate (tree);
}

static int
whole (int64_t *uses, const br_cover *c, int64_t target, int milliseconds,
       const volatile sig_atomic_t *flag)
{
  limits l = { target, flag };
  int ok = 0;
  if (!fits (c) || milliseconds < 1)
    return 0;
  glp_term_out (GLP_OFF);
  glp_prob *problem = make_problem (c, 1);
  if (problem && solve_relaxed (problem, milliseconds))
    {
      glp_iocp options;
      glp_init_iocp (&options);
      options.msg_lev = GLP_MSG_OFF;
      options.tm_lim = milliseconds;
      options.cb_func = look;
      options.cb_info = &l;
      (void) glp_intopt (problem, &options);
      int status = glp_mip_status (problem);
      ok = status == GLP_OPT || status == GLP_FEAS;
      for (size_t j = 0; ok && j < c->columns; j++)
        {
          double x = floor (glp_mip_col_val (problem, (int) j + 1) + 0.5);
          uses[j] = x > 0 && x < 1e9 ? (int64_t) x : 0;
        }
    }
  if (problem)
    glp_delete_prob (problem);
  return ok;
}

const br_solver solver_glpk = { relax, whole };
