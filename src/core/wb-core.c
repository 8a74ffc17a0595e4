/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"

G_DEFINE_QUARK (wb-core-error-quark, wb_core_error)
