//! An authority's words, and whom this device trusts.

use std::path::PathBuf;

use clap::Subcommand;
use slingseal_app::catalogue::help as words;

use super::spoken::t;

#[derive(Debug, Subcommand)]
pub(crate) enum AuthorityVerb {
    #[command(about = t(words::VerbAuthorityInit))]
    Init {
        #[arg(help = t(words::ArgAuthorityInitName))]
        #[arg(long, value_name = "NAME")]
        name: String,
        #[arg(help = t(words::ArgAuthorityInitApprove))]
        #[arg(long, value_name = "ID")]
        approve: Vec<String>,
        #[arg(help = t(words::ArgAuthorityInitOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityIssue))]
    Issue {
        #[arg(help = t(words::ArgAuthorityIssueRequest))]
        #[arg(value_name = "REQUEST")]
        request: String,
        #[arg(help = t(words::ArgAuthorityIssueRoles))]
        #[arg(long, value_name = "ROLES")]
        roles: String,
        #[arg(help = t(words::ArgAuthorityIssueExpires))]
        #[arg(long, value_name = "WHEN")]
        expires: String,
        #[arg(help = t(words::ArgAuthorityIssueHolder))]
        #[arg(long, value_name = "NAME")]
        holder: Option<String>,
        #[arg(help = t(words::ArgAuthorityIssueValidity))]
        #[arg(long, value_name = "HOURS")]
        validity: Option<u32>,
        #[arg(help = t(words::ArgAuthorityIssueOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityList))]
    List,
    #[command(about = t(words::VerbAuthorityShow))]
    #[command(alias = "card")]
    Show {
        #[arg(help = t(words::ArgAuthorityShowOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityRevoke))]
    Revoke {
        #[arg(help = t(words::ArgAuthorityRevokeWho))]
        #[arg(value_name = "WHO", required = true)]
        who: Vec<String>,
        #[arg(help = t(words::ArgAuthorityRevokeDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityRevokeOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityApprove))]
    Approve {
        #[arg(help = t(words::ArgAuthorityApproveWhich))]
        #[arg(value_name = "FILE|ID", required = true)]
        which: Vec<String>,
        #[arg(help = t(words::ArgAuthorityApproveDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityApproveOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityWithdraw))]
    Withdraw {
        #[arg(help = t(words::ArgAuthorityWithdrawWhich))]
        #[arg(value_name = "ID", required = true)]
        which: Vec<String>,
        #[arg(help = t(words::ArgAuthorityWithdrawDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityWithdrawOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityRoster))]
    Roster {
        #[arg(help = t(words::ArgAuthorityRosterDays))]
        #[arg(long, value_name = "DAYS")]
        days: Option<u32>,
        #[arg(help = t(words::ArgAuthorityRosterOut))]
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    #[command(about = t(words::VerbAuthorityTrust))]
    Trust {
        #[arg(help = t(words::ArgAuthorityTrustCard))]
        #[arg(value_name = "CARD")]
        card: String,
        #[arg(help = t(words::ArgAuthorityTrustFingerprint))]
        #[arg(long, value_name = "FINGERPRINT")]
        fingerprint: Option<String>,
        #[arg(help = t(words::ArgAuthorityTrustBeside))]
        #[arg(long)]
        beside: bool,
    },
    #[command(about = t(words::VerbAuthorityDistrust))]
    Distrust {
        #[arg(help = t(words::ArgAuthorityDistrustWho))]
        #[arg(value_name = "WHO")]
        who: String,
    },
}
