package slingseal.handheld

import slingseal.handheld.screens.ArrivalScreen
import slingseal.handheld.screens.AuthorityCodeScreen
import slingseal.handheld.screens.AuthorityCredentialScreen
import slingseal.handheld.screens.AuthorityIssueScreen
import slingseal.handheld.screens.AuthorityListsScreen
import slingseal.handheld.screens.AuthorityNameScreen
import slingseal.handheld.screens.AuthorityPeopleScreen
import slingseal.handheld.screens.AuthorityPersonScreen
import slingseal.handheld.screens.AuthorityScreen
import slingseal.handheld.screens.AuthorityWordsScreen
import slingseal.handheld.screens.BoardScreen
import slingseal.handheld.screens.CallsScreen
import slingseal.handheld.screens.CardsScreen
import slingseal.handheld.screens.ClosePinScreen
import slingseal.handheld.screens.ClosePointScreen
import slingseal.handheld.screens.CloseScreen
import slingseal.handheld.screens.ClosedScreen
import slingseal.handheld.screens.CopyKeptScreen
import slingseal.handheld.screens.CopyScreen
import slingseal.handheld.screens.DeficiencyScreen
import slingseal.handheld.screens.ElseScreen
import slingseal.handheld.screens.EndRunScreen
import slingseal.handheld.screens.ExamClassScreen
import slingseal.handheld.screens.ExamKeyScreen
import slingseal.handheld.screens.ExamKeysScreen
import slingseal.handheld.screens.ExamLockScreen
import slingseal.handheld.screens.ExamNameScreen
import slingseal.handheld.screens.ExamPickCardScreen
import slingseal.handheld.screens.ExamPickNameScreen
import slingseal.handheld.screens.ExamPlanScreen
import slingseal.handheld.screens.ExamReadyScreen
import slingseal.handheld.screens.ExamResultCodeScreen
import slingseal.handheld.screens.ExamResultScreen
import slingseal.handheld.screens.ExamResultsScreen
import slingseal.handheld.screens.ExamRevealScreen
import slingseal.handheld.screens.ExamScoreScreen
import slingseal.handheld.screens.ExamSheetScreen
import slingseal.handheld.screens.ExamStandardScreen
import slingseal.handheld.screens.ExamsScreen
import slingseal.handheld.screens.FileScreen
import slingseal.handheld.screens.FindScreen
import slingseal.handheld.screens.FindingScreen
import slingseal.handheld.screens.FindingsScreen
import slingseal.handheld.screens.GearScreen
import slingseal.handheld.screens.HaveScreen
import slingseal.handheld.screens.HookScreen
import slingseal.handheld.screens.InspectionScreen
import slingseal.handheld.screens.InspectionsScreen
import slingseal.handheld.screens.JoinScreen
import slingseal.handheld.screens.MoreScreen
import slingseal.handheld.screens.MoveOutScreen
import slingseal.handheld.screens.MoveScreen
import slingseal.handheld.screens.MovedScreen
import slingseal.handheld.screens.NameScreen
import slingseal.handheld.screens.NewPinScreen
import slingseal.handheld.screens.NotApplicableScreen
import slingseal.handheld.screens.NotFitScreen
import slingseal.handheld.screens.PhotoScreen
import slingseal.handheld.screens.PickScreen
import slingseal.handheld.screens.PlanDraftScreen
import slingseal.handheld.screens.PlanFieldScreen
import slingseal.handheld.screens.PlanLinksScreen
import slingseal.handheld.screens.PlanPieceScreen
import slingseal.handheld.screens.PlanPiecesScreen
import slingseal.handheld.screens.PlanPinScreen
import slingseal.handheld.screens.PlanScreen
import slingseal.handheld.screens.PlanSourceScreen
import slingseal.handheld.screens.PlanTagScreen
import slingseal.handheld.screens.ProcedureScreen
import slingseal.handheld.screens.ProceduresOutScreen
import slingseal.handheld.screens.ProceduresScreen
import slingseal.handheld.screens.RecordScreen
import slingseal.handheld.screens.RecordsScreen
import slingseal.handheld.screens.RefuseScreen
import slingseal.handheld.screens.ReportNoteScreen
import slingseal.handheld.screens.ReportPhotoScreen
import slingseal.handheld.screens.ReportPinScreen
import slingseal.handheld.screens.ReportScreen
import slingseal.handheld.screens.ReportSignScreen
import slingseal.handheld.screens.RequestScreen
import slingseal.handheld.screens.RiggingScreen
import slingseal.handheld.screens.RunMoreScreen
import slingseal.handheld.screens.ScanScreen
import slingseal.handheld.screens.SealScreen
import slingseal.handheld.screens.SetUpScreen
import slingseal.handheld.screens.SettingsScreen
import slingseal.handheld.screens.StartScreen
import slingseal.handheld.screens.StickerScreen
import slingseal.handheld.screens.StoryScreen
import slingseal.handheld.screens.SubjectNameScreen
import slingseal.handheld.screens.SubjectsScreen
import slingseal.handheld.screens.TagScreen
import slingseal.handheld.screens.TeamScreen
import slingseal.handheld.screens.Trusting
import slingseal.handheld.screens.TypeScreen
import slingseal.handheld.screens.ValueScreen
import slingseal.handheld.screens.VoidScreen
import slingseal.handheld.screens.VoidedScreen
import slingseal.handheld.screens.WeighHeightScreen
import slingseal.handheld.screens.WeighNumberScreen
import slingseal.handheld.screens.WeighPointScreen
import slingseal.handheld.screens.WeighScreen
import slingseal.handheld.screens.WeighWordsScreen
import slingseal.handheld.screens.WeighedScreen
import slingseal.handheld.screens.WhatScreen
import slingseal.handheld.screens.WhenScreen
import slingseal.handheld.screens.WhenTimeScreen
import slingseal.handheld.screens.WithdrawScreen
import slingseal.handheld.screens.WriteScreen
import slingseal.handheld.screens.run
import slingseal.handheld.screens.walkScreen

/** The page of each place. */
object Screens {
    fun of(shell: Shell, place: Place): Screen =
        when (place.page) {
            PageKind.START -> StartScreen(shell, place)
            PageKind.SCAN -> ScanScreen(shell, place)
            PageKind.TYPE -> TypeScreen(shell, place)
            PageKind.TAG -> TagScreen(shell, place)
            PageKind.WALK -> walkScreen(shell, place)
            PageKind.MOVE -> MoveScreen(shell, place)
            PageKind.FILES -> FileScreen(shell, place)
            PageKind.MOVE_OUT -> MoveOutScreen(shell, place)
            PageKind.HAVE -> HaveScreen(shell, place)
            PageKind.MOVED -> MovedScreen(shell, place)
            PageKind.MORE -> if (place.run == null) MoreScreen(shell, place) else RunMoreScreen(shell, place)
            PageKind.CARDS -> CardsScreen(shell, place)
            PageKind.FINDINGS -> FindingsScreen(shell, place)
            PageKind.FINDING -> FindingScreen(shell, place)
            PageKind.PICK -> PickScreen(shell, place)
            PageKind.DEFICIENCY -> DeficiencyScreen(shell, place)
            PageKind.PHOTO -> PhotoScreen(shell, place)
            PageKind.VALUE -> ValueScreen(shell, place)
            PageKind.WRITE -> WriteScreen(shell, place)
            PageKind.STICKER -> StickerScreen(shell, place)
            PageKind.NOT_FIT -> NotFitScreen(shell, place)
            PageKind.NOT_APPLICABLE -> NotApplicableScreen(shell, place)
            PageKind.RIGGING -> RiggingScreen(shell, place)
            PageKind.SEAL -> SealScreen(shell, place)
            PageKind.HOOK -> HookScreen(shell, place)
            PageKind.ARRIVAL -> ArrivalScreen(shell, place)
            PageKind.WHAT -> WhatScreen(shell, place)
            PageKind.REFUSE -> RefuseScreen(shell, place)
            PageKind.REPORT_NOTE -> ReportNoteScreen(shell, place)
            PageKind.REPORT_PHOTO -> ReportPhotoScreen(shell, place)
            PageKind.REPORT_PIN -> ReportPinScreen(shell, place)
            PageKind.WHEN -> WhenScreen(shell, place)
            PageKind.WHEN_TIME -> WhenTimeScreen(shell, place)
            PageKind.GEAR -> GearScreen(shell, place)
            PageKind.REPORT -> ReportScreen(shell, place)
            PageKind.REPORT_SIGN -> ReportSignScreen(shell, place)
            PageKind.RECORDS -> RecordsScreen(shell, place)
            PageKind.RECORD -> RecordScreen(shell, place)
            PageKind.VOID -> VoidScreen.of(shell, place)
            PageKind.VOIDED -> VoidedScreen(shell, place)
            PageKind.FIND -> FindScreen(shell, place)
            PageKind.ELSE -> ElseScreen(shell, place)
            PageKind.JOIN -> JoinScreen(shell, place)
            PageKind.TEAM -> TeamScreen(shell, place)
            PageKind.BOARD -> BoardScreen(shell, place)
            PageKind.STORY -> StoryScreen(shell, place)
            PageKind.CLOSE -> CloseScreen(shell, place)
            PageKind.CLOSE_POINT -> ClosePointScreen(shell, place)
            PageKind.CLOSE_PIN -> ClosePinScreen(shell, place)
            PageKind.CLOSED -> ClosedScreen(shell, place)
            PageKind.WITHDRAW -> WithdrawScreen.of(shell, place)
            PageKind.AUTHORITY_COPY -> CopyScreen(shell, place)
            PageKind.COPY_KEPT -> CopyKeptScreen(shell, place)
            PageKind.PLAN -> PlanScreen(shell, place)
            PageKind.PLAN_DRAFT -> PlanDraftScreen(shell, place)
            PageKind.PLAN_FIELD -> PlanFieldScreen(shell, place)
            PageKind.PLAN_SOURCE -> PlanSourceScreen(shell, place)
            PageKind.PLAN_PIECES -> PlanPiecesScreen(shell, place)
            PageKind.PLAN_PIECE -> PlanPieceScreen(shell, place)
            PageKind.PLAN_LINKS -> PlanLinksScreen(shell, place)
            PageKind.PLAN_PIN -> PlanPinScreen(shell, place)
            PageKind.PLAN_TAG -> PlanTagScreen(shell, place)
            PageKind.WEIGH -> WeighScreen(shell, place)
            PageKind.WEIGH_POINT -> WeighPointScreen(shell, place)
            PageKind.WEIGH_HEIGHT -> WeighHeightScreen(shell, place)
            PageKind.WEIGH_WORDS -> WeighWordsScreen(shell, place)
            PageKind.WEIGH_NUMBER -> WeighNumberScreen(shell, place)
            PageKind.WEIGHED -> WeighedScreen(shell, place)
            PageKind.AUTHORITY -> AuthorityScreen(shell, place)
            PageKind.AUTHORITY_NAME -> AuthorityNameScreen(shell, place)
            PageKind.AUTHORITY_LISTS -> AuthorityListsScreen(shell, place)
            PageKind.AUTHORITY_WORDS -> AuthorityWordsScreen(shell, place)
            PageKind.AUTHORITY_ISSUE -> AuthorityIssueScreen(shell, place)
            PageKind.AUTHORITY_CODE -> AuthorityCodeScreen(shell, place)
            PageKind.AUTHORITY_CREDENTIAL -> AuthorityCredentialScreen(shell, place)
            PageKind.AUTHORITY_PEOPLE -> AuthorityPeopleScreen(shell, place)
            PageKind.AUTHORITY_PERSON -> AuthorityPersonScreen(shell, place)
            PageKind.PROCEDURES -> ProceduresScreen(shell, place)
            PageKind.PROCEDURE -> ProcedureScreen(shell, place)
            PageKind.PROCEDURES_OUT -> ProceduresOutScreen(shell, place)
            PageKind.SUBJECTS -> SubjectsScreen(shell, place)
            PageKind.INSPECTIONS -> InspectionsScreen(shell, place)
            PageKind.SUBJECT_NAME -> SubjectNameScreen(shell, place)
            PageKind.INSPECTION -> InspectionScreen(shell, place)
            PageKind.SET_UP -> SetUpScreen(shell, place)
            PageKind.TRUST -> Trusting.of(shell, place)
            PageKind.REQUEST -> RequestScreen(shell, place)
            PageKind.NAME -> NameScreen(shell, place)
            PageKind.NEW_PIN -> NewPinScreen(shell, place)
            PageKind.SETTINGS -> SettingsScreen(shell, place)
            PageKind.EXAMS -> ExamsScreen(shell, place)
            PageKind.EXAM_PLAN -> ExamPlanScreen(shell, place)
            PageKind.EXAM_CARDS -> ExamPickCardScreen(shell, place)
            PageKind.EXAM_NAMES -> ExamPickNameScreen(shell, place)
            PageKind.EXAM_STANDARD -> ExamStandardScreen(shell, place)
            PageKind.EXAM_LOCK -> ExamLockScreen(shell, place)
            PageKind.EXAM_KEYS -> ExamKeysScreen(shell, place)
            PageKind.EXAM_KEY -> ExamKeyScreen(shell, place)
            PageKind.EXAM_REVEAL -> ExamRevealScreen(shell, place)
            PageKind.EXAM_NAME -> ExamNameScreen(shell, place)
            PageKind.EXAM_READY -> ExamReadyScreen(shell, place)
            PageKind.EXAM_CALLS -> CallsScreen(shell, place)
            PageKind.EXAM_END -> EndRunScreen(shell, place)
            PageKind.EXAM_SHEET -> ExamSheetScreen(shell, place)
            PageKind.EXAM_SCORE -> ExamScoreScreen(shell, place)
            PageKind.EXAM_RESULTS -> ExamResultsScreen(shell, place)
            PageKind.EXAM_RESULT -> ExamResultScreen(shell, place)
            PageKind.EXAM_RESULT_CODE -> ExamResultCodeScreen(shell, place)
            PageKind.EXAM_CLASS -> ExamClassScreen(shell, place)
        }
}
